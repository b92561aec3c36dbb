#include <algorithm>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "coach/plan/plan_clearance.h"
#include "coach/trial/trial.h"
#include "lesson/words/shot_words.h"
#include "tests/coach/scene_of_balls.h"

// Layouts whose truth is known beforehand, from the geometry or as a fact of the trade (common
// practice, no source).
namespace ahead::coach {
namespace {

/// The black lies in the middle of the top cushion, so it goes only from up the table; red 1 lies
/// by the top-left pocket and leads there. The others lie down the table.
Layout key_ball_by_the_black() {
  return test::layout_of({{"cue", {300, 1500}},
                          {"red-1", {90, 1690}},
                          {"red-2", {150, 300}},
                          {"red-3", {760, 420}},
                          {"black", {457, 1790}}});
}

const std::string& id(const PlannedShot& shot, const ShotOption& option) {
  return shot.before.balls[static_cast<std::size_t>(option.ball)].id;
}

const Plan& key_ball_plan() {
  static const Plan plan = *plan_clearance(key_ball_by_the_black(), *player_preset("county"), {});
  return plan;
}

TEST(APlantedTruth, TheKeyBallIsKeptForTheBlack) {
  const Plan& plan = key_ball_plan();
  ASSERT_EQ(plan.shots.size(), 4U);
  EXPECT_EQ(id(plan.shots[2], plan.shots[2].best), "red-1");
  EXPECT_EQ(id(plan.shots[3], plan.shots[3].best), "black");
}

// The easiest pot would be the key ball.
TEST(APlantedTruth, TheHarderPotIsRightAndTheWordsSaySo) {
  const PlannedShot& first = key_ball_plan().shots.front();
  ASSERT_TRUE(first.runner_up);
  EXPECT_EQ(id(first, *first.runner_up), "red-1");
  EXPECT_LT(first.best.pot.high, first.runner_up->pot.low);
  EXPECT_GT(first.best.clear.value, first.runner_up->clear.value);
  EXPECT_EQ(first.why_lost, WhyLost::worse_rest);
  EXPECT_THAT(lesson::shot_words(key_ball_plan(), 0).runner_up,
              ::testing::HasSubstr("the rest is harder from there"));
}

TEST(APlantedTruth, TheGreedyOrderStrandsTheLastBall) {
  const auto cleared = [](Policy policy) {
    const LayoutTrial trial = play_layout(key_ball_by_the_black(), *player_preset("county"), policy,
                                          {.runs = 40, .seed = 1});
    return std::ranges::count(trial.clearances, Outcome::cleared, &PlayedClearance::outcome);
  };
  EXPECT_GT(cleared(Policy::plan), 2 * cleared(Policy::greedy));
}

/// Red 1 hangs so near the corner that a plant on it cannot miss; neither red goes by itself, since
/// the yellows guard their other sides.
TEST(APlantedTruth, WhereNothingGoesDirectlyAPlantIsPlayed) {
  const Layout layout = test::layout_of({{"cue", {600, 900}},
                                         {"red-1", {140, 140}},
                                         {"red-2", {180, 181}},
                                         {"yellow-1", {60, 300}},
                                         {"yellow-2", {300, 60}},
                                         {"black", {457, 1371}}});
  const auto plan = plan_clearance(layout, *player_preset("county"), {.effort = Effort::quick});
  ASSERT_TRUE(plan);
  const ShotOption& first = plan->shots.front().best;
  ASSERT_TRUE(first.indirect);
  EXPECT_EQ(first.indirect->means, Means::plant);
  EXPECT_EQ(id(plan->shots.front(), first), "red-1");
  EXPECT_GT(first.pot.value, 0.9);
  EXPECT_THAT(lesson::shot_words(*plan, 0).headline,
              ::testing::HasSubstr("by a plant from red 2, red 2"));
}

}  // namespace
}  // namespace ahead::coach
