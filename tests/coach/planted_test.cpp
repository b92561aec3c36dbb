#include <algorithm>
#include <cmath>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "coach/plan/choose.h"
#include "coach/plan/plan_clearance.h"
#include "coach/trial/trial.h"
#include "lesson/words/shot_words.h"
#include "tests/coach/scene_of_balls.h"

// Layouts whose truth is known beforehand, from the geometry or as a fact of the trade (common
// practice, no source).
namespace ahead::coach {
namespace {

/// The black lies in the middle of the top cushion, so it goes only from up the table; red 1 lies
/// by the top-left pocket and leads there. The others lie down the table, red 3 behind a yellow.
Layout key_ball_by_the_black() {
  return test::layout_of({{"cue", {250, 1300}},
                          {"red-1", {90, 1690}},
                          {"red-2", {150, 300}},
                          {"red-3", {760, 420}},
                          {"yellow-1", {607, 684}},
                          {"black", {457, 1803}}});
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

/// Red 2 lies on the top cushion between two yellows, and the black is no help. After red 1, in the
/// jaws of the middle pocket, the cue ball can run up the table into them.
TEST(APlantedTruth, WhereOnlyANudgeFreesTheLastRedThePotIsPlayedForIt) {
  const Layout layout = test::layout_of({{"cue", {300, 700}},
                                         {"red-1", {60, 930}},
                                         {"red-2", {202, 1803}},
                                         {"yellow-1", {150, 1803}},
                                         {"yellow-2", {254, 1803}},
                                         {"black", {457, 500}}});
  const auto plan = plan_clearance(layout, *player_preset("professional"), {});
  ASSERT_TRUE(plan);
  const PlannedShot& first = plan->shots.front();
  ASSERT_EQ(first.moment.frees.size(), 1U);
  EXPECT_EQ(first.before.balls[static_cast<std::size_t>(first.moment.frees.front())].id, "red-2");
  EXPECT_TRUE(plan->complete);
  // Potting red 1 in another way strands red 2.
  ASSERT_TRUE(first.runner_up);
  EXPECT_EQ(id(first, *first.runner_up), "red-1");
  EXPECT_GT(first.best.clear.low, first.runner_up->clear.high);
  EXPECT_THAT(lesson::shot_words(*plan, 0).why,
              ::testing::HasSubstr("it frees red 2, which nothing could pot"));
}

/// With the yellow behind the cue ball the screw shot cannot be struck.
Layout screw_shot(bool with_yellow) {
  std::vector<std::pair<std::string, engine::Vec2>> balls{
      {"cue", {634, 409}}, {"red-1", {199, 815}}, {"black", {261, 109}}};
  if (with_yellow) balls.push_back({"yellow-1", {678, 365}});
  return test::layout_of(balls);
}

TEST(APlantedTruth, SideIsUsedOnlyWhereABallIsInTheWayOfTheLowStrike) {
  const Player player = *player_preset("professional");
  const auto free = plan_clearance(screw_shot(false), player, {});
  const auto blocked = plan_clearance(screw_shot(true), player, {});
  ASSERT_TRUE(free);
  ASSERT_TRUE(blocked);
  const ShotOption& low = free->shots.front().best;
  const ShotOption& with_side = blocked->shots.front().best;
  EXPECT_EQ(low.pocket, with_side.pocket);
  EXPECT_EQ(low.strike.side, 0);
  EXPECT_LT(low.strike.height, -0.2);
  EXPECT_GT(std::abs(with_side.strike.side), 0.2);

  const Layout layout = screw_shot(true);
  const Scene scene = scene_of(layout, ToPlay::red, player);
  const Position position = position_of(layout);
  const Access reached = access(scene, position, low.strike);
  EXPECT_FALSE(recommended(reached));

  // Without side the best that can be struck is worth a good deal less.
  const ValueField field(scene, position, fine_grid,
                         std::make_shared<const Glance>(scene.field, player));
  long simulated = 0;
  const auto rivals = weigh_shots(scene, field, position, 1, simulated);
  double plain = 0;
  for (const Weighed& rival : rivals) {
    const bool well_known = rival.tries >= 160;
    if (well_known && rival.prospect.strike.side == 0) plain = std::max(plain, rival.worth);
  }
  EXPECT_LT(plain, 0.9 * rivals.front().worth);
}

}  // namespace
}  // namespace ahead::coach
