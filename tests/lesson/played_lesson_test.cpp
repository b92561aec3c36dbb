#include <cmath>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "formats/after.h"
#include "formats/plan.h"
#include "formats/text_file.h"
#include "lesson/film/timeline.h"
#include "lesson/pictures.h"
#include "lesson/told/lesson_words.h"
#include "tests/support/run_program.h"
#include "tests/support/temporary_folder.h"
#include "tests/support/text_of.h"

// A clearance as it was played: what was meant, then what came of it.
namespace ahead::lesson {
namespace {

using ::testing::HasSubstr;

const std::string plan_file = AHEAD_SOURCE_DIR "/examples/after/plan.json";

const coach::Plan& plan() {
  static const coach::Plan read = *formats::read_plan(test::text_of(plan_file), plan_file);
  return read;
}

/// The plan's later shots as the plan that was made after its first.
coach::Plan from_there() {
  coach::Plan later = plan();
  later.shots.erase(later.shots.begin());
  later.layout = later.shots.front().before;
  return later;
}

/// The first shot was potted; the cue ball ran on 250 mm, as a strike 9% too hard explains.
coach::Aftermath first_shot() {
  const coach::PlannedShot& shot = plan().shots[0];
  coach::Aftermath after{.actual = plan().shots[1].before,
                         .player = plan().player,
                         .potted = true,
                         .leave = coach::LeaveMiss{.along_m = 0.250, .across_m = -0.030},
                         .plan = from_there()};
  after.ends = {{.id = "cue", .meant = shot.best.cue_path.rest, .found = {{0.5, 0.7}}}};
  after.strike.explained = 0.99;
  using enum coach::Part;
  after.strike.parts[static_cast<std::size_t>(pace)] = {
      .low = 0.03, .best = 0.09, .high = 0.15, .prior_sigma = 0.08, .sigma = 0.03};
  after.strike.parts[static_cast<std::size_t>(direction)] = {
      .low = -0.001, .best = 0.0005, .high = 0.002, .prior_sigma = 0.0035, .sigma = 0.001};
  return after;
}

coach::PlayedShot read(const coach::Aftermath& after) {
  return *formats::read_played(formats::write_after(plan(), after), "after.json");
}

LessonWords told(const std::vector<coach::PlayedShot>& shots, Depth depth) {
  return lesson_words(*coach::as_played(plan(), shots), coach::read_balls(plan().layout),
                      {.depth = depth});
}

TEST(AComparison, IsReadAsFarAsALessonNeedsIt) {
  const coach::PlayedShot shot = read(first_shot());
  EXPECT_EQ(shot.shot, 0U);
  EXPECT_EQ(shot.ball, "red-2");
  EXPECT_TRUE(shot.result.potted);
  EXPECT_NEAR(shot.result.leave->along_m, 0.250, 1e-4);
  EXPECT_NEAR(shot.result.cue->x, 0.5, 1e-4);
  EXPECT_EQ(shot.result.slip, coach::Part::pace) << "the direction may have been as meant";
  EXPECT_NEAR(shot.result.estimate.best, 0.09, 1e-4);
  EXPECT_EQ(shot.plan->shots.size(), plan().shots.size() - 1);

  coach::Aftermath unexplained = first_shot();
  unexplained.strike.explained = 0.2;
  EXPECT_EQ(read(unexplained).result.slip, std::nullopt);
}

TEST(AnotherFile, IsNoComparison) {
  const auto refused = formats::read_played(test::text_of(plan_file), "after.json");
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().place, "/format");
}

TEST(APlayedClearance, JoinsWhatWasPlayedAndWhatIsToCome) {
  const auto played = coach::as_played(plan(), std::vector{read(first_shot())});
  ASSERT_TRUE(played);
  EXPECT_EQ(played->plan.shots.size(), plan().shots.size());
  EXPECT_TRUE(played->plan.complete);
  EXPECT_TRUE(played->came[0]);
  EXPECT_FALSE(played->came[1]);

  coach::PlayedShot missed = read(first_shot());
  missed.result.potted = false;
  const auto over = coach::as_played(plan(), std::vector{missed});
  ASSERT_TRUE(over);
  EXPECT_EQ(over->plan.shots.size(), 1U);
  EXPECT_FALSE(over->plan.complete);

  // The second is compared with the plan made after the first, which begins with another ball.
  const std::vector twice{read(first_shot()), read(first_shot())};
  EXPECT_EQ(coach::as_played(plan(), twice).error(), 1U);
}

TEST(APlayedClearance, IsToldWithWhatCameOfIt) {
  const std::vector shots{read(first_shot())};
  const LessonWords words = told(shots, Depth::self);
  const auto& shot = words.shots[0];
  EXPECT_EQ(LessonWords::text_of(shot, "came"),
            "Played: the ball went in, but the cue ball stopped 250 mm too far.");
  EXPECT_EQ(LessonWords::text_of(shot, "slip"),
            "Most likely it was struck 9% too hard (90% interval: 3 to 15% too hard).");
  EXPECT_EQ(LessonWords::text_of(words.shots[1], "came"), "");
  EXPECT_EQ(LessonWords::text_of(told(shots, Depth::viewer).shots[0], "slip"), "");
  // What was meant is told as the plan of its time had it.
  const LessonWords meant =
      lesson_words(plan(), coach::read_balls(plan().layout), {.depth = Depth::self});
  EXPECT_EQ(LessonWords::text_of(shot, "leave"), LessonWords::text_of(meant.shots[0], "leave"));

  coach::PlayedShot missed = shots[0];
  missed.result.potted = false;
  EXPECT_EQ(LessonWords::text_of(told({missed}, Depth::pupil).shots[0], "came"),
            "Played: the ball stayed up, and the visit was over.");
}

TEST(APlayedClearance, IsDrawnAndShownWithTheRealStop) {
  const auto played = *coach::as_played(plan(), std::vector{read(first_shot())});
  const LessonWords words = lesson_words(played, coach::read_balls(plan().layout), {});
  const auto pictures = lesson_pictures(played.plan, words, house_look(), {}, Ground::paper);
  EXPECT_THAT(pictures[1].svg, HasSubstr("stopped here"));
  EXPECT_EQ(pictures[3].svg.find("stopped here"), std::string::npos);
  for (const Part& part : timeline(played.plan, words).parts) {
    if (part.beat != Beat::rest) continue;
    EXPECT_EQ(part.words.empty(), part.shot != 0);
  }
}

TEST(TheLessonVerb, TellsAClearanceAsItWasPlayed) {
  const test::TemporaryFolder folder;
  const std::string after = folder / "after.json";
  ASSERT_FALSE(formats::write_file(after, formats::write_after(plan(), first_shot())));
  const auto run = [&](const std::vector<std::string>& played) {
    std::vector<std::string> words{"lesson", plan_file, "--out",   folder / "x",
                                   "--what", "words",   "--played"};
    words.insert(words.end(), played.begin(), played.end());
    return test::run_program(words);
  };
  EXPECT_EQ(run({after}).status, 0);
  EXPECT_THAT(test::text_of(folder / "x/words.txt"), HasSubstr("stopped 250 mm too far."));
  const test::Ran wrong = run({after, after});
  EXPECT_EQ(wrong.status, 2);
  EXPECT_THAT(wrong.err, HasSubstr("that the plan before it does not have"));
}

}  // namespace
}  // namespace ahead::lesson
