#include "engine/simulate/simulate.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include <gtest/gtest.h>

#include "engine/equipment/presets.h"
#include "engine/motion/motion.h"
#include "tests/support/shot_facts.h"
#include "tests/support/slot.h"

// Properties that hold for every shot are in tests/laws/.
namespace ahead::engine {
namespace {

using test::count_of;

constexpr double pi = std::numbers::pi;

const Playfield& field() {
  static const Playfield english(*table_preset("english-7ft"));
  return english;
}
const Table& table() { return field().table(); }

std::vector<EventKind> kinds(const Shot& shot) {
  std::vector<EventKind> result;
  for (const Event& event : shot.events) result.push_back(event.kind);
  return result;
}

TEST(AShot, WithoutSpinSlidesRollsAndStops) {
  const std::array<Vec2, 1> balls{{{0.4572, 0.4}}};
  const Shot shot = simulate(field(), balls, {.aim_rad = pi / 2, .cue_speed_mps = 0.4});
  using enum EventKind;
  EXPECT_EQ(kinds(shot), (std::vector{strike, slide_to_roll, stop}));
  EXPECT_EQ(shot.settled_s, shot.still_s);
  EXPECT_NEAR(shot.endings[0].position.x, 0.4572, 1e-12);
}

// Drag takes the speed, and side outlasts it.
TEST(AShot, WithSideIsStillBeforeItIsSettled) {
  const std::array<Vec2, 1> balls{{{0.4572, 0.4}}};
  const Shot shot = simulate(
      field(), balls, {.aim_rad = pi / 2, .side = 0.4, .height = -0.3, .cue_speed_mps = 0.4});
  EXPECT_GT(shot.settled_s, shot.still_s + 0.1);
}

TEST(AShot, TellsWhichBallsMetAndWhichPocketTookTheBall) {
  const std::array<Vec2, 2> balls{{{0.4572, 0.9144}, {0.2, 0.9144}}};
  const Shot shot = simulate(field(), balls, {.aim_rad = pi, .cue_speed_mps = 1});
  const auto met = std::ranges::find(shot.events, EventKind::ball_ball, &Event::kind);
  ASSERT_NE(met, shot.events.end());
  EXPECT_EQ(met->ball, 0);
  EXPECT_EQ(met->other, 1);
  const auto pot = std::ranges::find(shot.events, EventKind::pot, &Event::kind);
  ASSERT_NE(pot, shot.events.end());
  EXPECT_EQ(pot->ball, 1);
  EXPECT_EQ(pot->place, static_cast<int>(PocketName::middle_left));
  EXPECT_EQ(shot.endings[1].pocket, static_cast<int>(PocketName::middle_left));
  EXPECT_FALSE(shot.endings[1].on_table());
}

TEST(AShot, IntoTwoFrozenBallsIsOneGroupEvent) {
  const double R = table().object_ball.radius_m;
  const std::array<Vec2, 3> balls{{{0.4, 0.5}, {0.4, 1.0}, {0.4, 1.0 + 2 * R}}};
  const Shot shot = simulate(field(), balls, {.aim_rad = pi / 2, .cue_speed_mps = 1});
  const auto group = std::ranges::find(shot.events, EventKind::group, &Event::kind);
  ASSERT_NE(group, shot.events.end());
  EXPECT_EQ(group->members, 0b111U);
}

TEST(AShot, StruckHardFromAboveLeavesTheBedAndLands) {
  const std::array<Vec2, 1> balls{{{0.4572, 0.4}}};
  const Shot shot =
      simulate(field(), balls, {.aim_rad = pi / 2, .elevation_rad = 0.6, .cue_speed_mps = 1.5});
  EXPECT_GE(count_of(shot, EventKind::bed), 1);
  EXPECT_EQ(shot.stretches.front().phase, Phase::airborne);
}

TEST(AShot, JumpedOverTheRailIsOffTheTable) {
  const std::array<Vec2, 1> balls{{{0.4572, 0.3}}};
  const Shot shot =
      simulate(field(), balls, {.aim_rad = 0.1, .elevation_rad = 0.75, .cue_speed_mps = 4.5});
  EXPECT_EQ(count_of(shot, EventKind::off_table), 1);
  EXPECT_TRUE(shot.endings[0].off_table);
}

// Thrown so that it comes down through the height at which a pocket takes it, 2R, at the centre.
TEST(AFlyingBall, DropsIntoThePocketThatItComesDownOver) {
  const double R = table().cue_ball.radius_m;
  const Pocket& pocket = table().pockets[0];
  const Vec3 velocity{-1.2, -1.2, 1.6};
  const double falls_s =
      (velocity.z + std::sqrt(velocity.z * velocity.z - 2 * gravity_mps2 * R)) / gravity_mps2;
  const Vec2 from = pocket.centre - falls_s * plan(velocity);

  const std::array<BallState, 1> balls{{{.position = lift(from, R), .velocity = velocity}}};
  const Shot shot = simulate_from(field(), balls);

  EXPECT_EQ(kinds(shot), std::vector{EventKind::pot});
  EXPECT_EQ(shot.endings[0].pocket, 0);
  EXPECT_NEAR(shot.events[0].t_s, falls_s, 1e-12);
}

TEST(ABall, ThatComesDownBesideTheNoseAndBeginsInsideItGetsOffIt) {
  const std::array<BallState, 1> balls{{{.position = {0.022645, 0.4574, 0.039479}}}};
  const Shot shot = simulate_from(field(), balls);
  EXPECT_EQ(shot.stuck, 0U);
  EXPECT_NEAR(shot.endings[0].position.z, table().cue_ball.radius_m, 1e-12);
}

TEST(AShot, ThatDoesNotGetOnIsGivenUpAndNamesTheBall) {
  const Playfield slot(test::table_with_slot());
  const double R = slot.table().object_ball.radius_m;
  const std::array<Vec2, 3> balls{test::in_the_slot, Vec2{0.2, 0.4}, Vec2{0.2, 0.4 + 2 * R}};
  const Shot shot = simulate(slot, balls, test::across_the_slot());
  EXPECT_EQ(shot.stuck, 1U);
  EXPECT_LT(shot.settled_s, 0.01);
  EXPECT_TRUE(shot.endings[0].on_table());
}

TEST(AShot, ThatEndsByItselfIsNotGivenUp) {
  const std::array<Vec2, 1> balls{{{0.4572, 0.4}}};
  EXPECT_EQ(simulate(field(), balls, {.aim_rad = 1, .cue_speed_mps = 4}).stuck, 0U);
}

TEST(ABall, FrozenToACushionIsPlayedAwayWithoutMeetingIt) {
  const std::array<Vec2, 1> balls{{{field().cue_ball().reach_m, 0.5}}};
  const Shot shot = simulate(field(), balls, {.aim_rad = 0, .cue_speed_mps = 0.3});
  EXPECT_EQ(kinds(shot)[1], EventKind::slide_to_roll);
  EXPECT_GT(shot.endings[0].position.x, 0.2);
}

TEST(ABall, FrozenToACushionAndPlayedAlongItStaysBesideIt) {
  const std::array<Vec2, 1> balls{{{field().cue_ball().reach_m, 0.2}}};
  const Shot shot = simulate(field(), balls, {.aim_rad = pi / 2, .cue_speed_mps = 0.5});
  EXPECT_LT(shot.events.size(), 20U);
  EXPECT_NEAR(shot.endings[0].position.x, field().cue_ball().reach_m, 1e-6);
}

TEST(ABall, AtRestInFrontOfARollingOneIsMet) {
  const Ball& ball = table().object_ball;
  const double v = 0.6;
  std::array<BallState, 2> balls{};
  balls[0].position = {0.2, 0.2, table().cue_ball.radius_m};
  balls[1] = {.position = {0.2, 1.0, ball.radius_m},
              .velocity = {0, -v, 0},
              .spin = {v / ball.radius_m, 0, 0}};
  const Shot shot = simulate_from(field(), balls);
  EXPECT_EQ(count_of(shot, EventKind::ball_ball), 1);
  EXPECT_NE(shot.endings[0].position.y, 0.2);
}

// Two balls that both move from the start: each has a path of its own from time nought.
TEST(TwoMovingBalls, AreBothRecordedFromTheStart) {
  std::array<BallState, 2> balls{};
  balls[0] = {.position = {0.2, 0.2, table().cue_ball.radius_m}, .velocity = {0, 0.5, 0}};
  balls[1] = {.position = {0.6, 0.2, table().object_ball.radius_m}, .velocity = {0, 0.4, 0}};
  const Shot shot = simulate_from(field(), balls);
  ASSERT_GE(shot.stretches.size(), 4U);
  EXPECT_EQ(shot.stretches[0].ball, 0);
  EXPECT_EQ(shot.stretches[1].ball, 1);
  EXPECT_NEAR(shot.stretches[0].t1_s, 2 * 0.5 / (7 * 0.2 * gravity_mps2), 1e-12);
}

}  // namespace
}  // namespace ahead::engine
