#include "engine/contact/strike.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "engine/motion/motion.h"
#include "tests/support/any.h"

// Speeds, spins and angles of the published rows are in tests/published/strike_rows.cpp.
namespace ahead::engine {
namespace {

using test::any::between;

constexpr Ball ball{.radius_m = 0.0238, .mass_kg = 0.094};
constexpr double pi = std::numbers::pi;

BallState after(const Strike& strike, const Cue& cue = {}, const Cloth& cloth = {}) {
  return struck({.position = {0, 0, ball.radius_m}}, strike, ball, cue, cloth);
}

Strike any_strike() {
  const double off = 0.5 * std::sqrt(between(0, 1));
  const double where = test::any::angle_rad();
  return {.aim_rad = test::any::angle_rad(),
          .elevation_rad = between(0, pi / 3),
          .side = off * std::cos(where),
          .height = off * std::sin(where),
          .cue_speed_mps = between(0.1, 5)};
}

TEST(AStrike, PastTheLimitMiscues) {
  const Cue cue{.miscue_offset = 0.5};
  EXPECT_FALSE(miscues({.side = 0.3, .height = -0.4}, cue));
  EXPECT_TRUE(miscues({.side = 0.31, .height = -0.4}, cue));
  EXPECT_TRUE(miscues({.height = 0.51}, cue));
}

TEST(AStrike, AboveTheCentreGivesTopSpinAndBelowItBackSpin) {
  EXPECT_GT(after({.height = 0.3, .cue_speed_mps = 1}).spin.y, 0);
  EXPECT_LT(after({.height = -0.3, .cue_speed_mps = 1}).spin.y, 0);
}

TEST(AStrike, OnTheRightSpinsTheBallCounterClockwiseAndSendsItLeft) {
  const BallState gone = after({.side = 0.4, .cue_speed_mps = 1});
  EXPECT_GT(gone.spin.z, 0);
  EXPECT_GT(gone.velocity.y, 0);
}

TEST(ARaisedCue, CurvesTheBallTowardsTheSideStruck) {
  const BallState gone = after({.elevation_rad = 0.3, .side = 0.4, .cue_speed_mps = 2});
  EXPECT_LT(angle_rad(rolling_velocity_to_come(gone, ball)), 0);
}

TEST(ARaisedCue, DrivesTheBallIntoTheBedFromWhereItHops) {
  const BallState gone = after({.elevation_rad = 0.5, .cue_speed_mps = 3});
  EXPECT_GT(gone.velocity.z, 0.15);
  EXPECT_EQ(phase_of(gone, ball), Phase::airborne);
  // A gentle one does not leave the bed.
  EXPECT_EQ(after({.elevation_rad = 0.05, .cue_speed_mps = 1}).velocity.z, 0);
}

TEST(Deflection, DoesNotDependOnSpeed) {
  const auto leaves_rad = [](double cue_speed_mps) {
    return angle_rad(plan(after({.side = 0.5, .cue_speed_mps = cue_speed_mps}).velocity));
  };
  EXPECT_NEAR(leaves_rad(0.5), leaves_rad(5), 1e-12);
  EXPECT_NEAR(leaves_rad(0.5), deflection_rad(0.5, ball, {}), 1e-12);
}

TEST(Deflection, IsLargerForALighterBallAndAHeavierEnd) {
  EXPECT_GT(deflection_rad(0.4, {.mass_kg = 0.094}, {}),
            deflection_rad(0.4, {.mass_kg = 0.116}, {}));
  EXPECT_GT(deflection_rad(0.4, ball, {.end_mass_kg = 0.01}), deflection_rad(0.4, ball, {}));
}

RC_GTEST_PROP(AStrike, SendsTheBallOffInProportionToTheCueSpeedUntilItHops, ()) {
  Strike strike = any_strike();
  strike.elevation_rad = 0;
  const BallState one = after(strike);
  strike.cue_speed_mps *= 2;
  const BallState two = after(strike);
  RC_ASSERT(norm(two.velocity - 2.0 * one.velocity) < 1e-12);
  RC_ASSERT(norm(two.spin - 2.0 * one.spin) < 1e-9);
}

RC_GTEST_PROP(AStrike, MirroredGivesTheMirroredBall, ()) {
  const Strike strike = any_strike();
  Strike mirrored = strike;
  mirrored.aim_rad = pi - strike.aim_rad;
  mirrored.side = -strike.side;

  const BallState gone = after(strike);
  const BallState other = after(mirrored);

  // A mirror at x = 0 turns x of a velocity, and y and z of a spin.
  RC_ASSERT(norm(other.velocity - Vec3{-gone.velocity.x, gone.velocity.y, gone.velocity.z}) <
            1e-12);
  RC_ASSERT(norm(other.spin - Vec3{gone.spin.x, -gone.spin.y, -gone.spin.z}) < 1e-9);
}

RC_GTEST_PROP(AStrike, GivesTheBallNoMoreEnergyThanTheCueHas, ()) {
  const Strike strike = any_strike();
  const Cue cue;
  const double cue_energy_j = 0.5 * cue.mass_kg * strike.cue_speed_mps * strike.cue_speed_mps;
  RC_ASSERT(energy_j(after(strike), ball) < cue_energy_j);
}

}  // namespace
}  // namespace ahead::engine
