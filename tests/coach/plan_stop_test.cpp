#include <stop_token>
#include <string>

#include <gtest/gtest.h>

#include "coach/plan/plan_clearance.h"
#include "coach/stop.h"
#include "tests/coach/example_layout.h"

// Planning with more or less effort, and ending it early.
namespace ahead::coach {
namespace {

Layout two_to_go() { return test::example_layout("two-to-go"); }
Player club() { return *player_preset("club"); }

TEST(APlan, HasMoreTriesBehindItTheGreaterTheEffort) {
  const auto quick = plan_clearance(two_to_go(), club(), {.effort = Effort::quick});
  const auto normal = plan_clearance(two_to_go(), club(), {});
  ASSERT_TRUE(quick && normal);
  EXPECT_EQ(quick->effort, Effort::quick);
  EXPECT_EQ(normal->effort, Effort::normal);
  EXPECT_LT(quick->simulated_shots, normal->simulated_shots);
  const auto width = [](const Chance& chance) { return chance.high - chance.low; };
  EXPECT_GT(width(quick->clear), width(normal->clear));
}

TEST(APlan, StoppedOnTheWayIsTheOneOfLessEffort) {
  const auto quick = plan_clearance(two_to_go(), club(), {.effort = Effort::quick});
  std::stop_source source;
  PlanSettings settings{.stop = source.get_token()};
  settings.on_plan = [&](const Plan&) { source.request_stop(); };
  const auto stopped = plan_clearance(two_to_go(), club(), settings);
  ASSERT_TRUE(quick && stopped);
  EXPECT_TRUE(stopped->partial);
  EXPECT_FALSE(quick->partial);
  EXPECT_EQ(stopped->effort, Effort::quick);
  EXPECT_EQ(stopped->clear.value, quick->clear.value);
  ASSERT_EQ(stopped->shots.size(), quick->shots.size());
  EXPECT_EQ(stopped->shots.front().best.strike.aim_rad, quick->shots.front().best.strike.aim_rad);
}

TEST(APlan, StoppedBeforeItsFirstIsNone) {
  std::stop_source source;
  source.request_stop();
  EXPECT_FALSE(plan_clearance(two_to_go(), club(), {.stop = source.get_token()}));
}

TEST(APlan, IsThereHoweverShortTheTime) {
  const auto plan = plan_clearance(two_to_go(), club(), {.seconds = 0.0});
  ASSERT_TRUE(plan);
  EXPECT_EQ(plan->effort, Effort::quick);
  EXPECT_FALSE(plan->partial);
}

TEST(AStop, LeavesUndoneWhatHasNotBegun) {
  std::stop_source source;
  source.request_stop();
  bool begun = false;
  EXPECT_FALSE(ran_unstopped(source.get_token(), [&] { begun = true; }));
  EXPECT_FALSE(begun);
  EXPECT_TRUE(ran_unstopped({}, [&] { begun = true; }));
  EXPECT_TRUE(begun);
}

}  // namespace
}  // namespace ahead::coach
