#include "engine/contact/landing.h"

#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "engine/motion/motion.h"
#include "tests/support/any.h"

namespace ahead::engine {
namespace {

using test::any::between;

constexpr Ball ball{.radius_m = 0.0254, .mass_kg = 0.116};

BallState coming_down(Vec3 velocity, Vec3 spin = {}) {
  return {.position = {0, 0, ball.radius_m}, .velocity = velocity, .spin = spin};
}

TEST(ALandingBall, GoesUpWithTheShareThatTheBedGivesBack) {
  EXPECT_NEAR(landed(coming_down({0, 0, -1}), ball, {}).velocity.z, 0.5, 1e-15);
}

TEST(ALandingBall, StaysDownWhenTheReboundIsBelowTheHopSpeed) {
  const Cloth cloth{.bed_restitution = 0.5, .hop_speed_mps = 0.15};
  EXPECT_EQ(landed(coming_down({0, 0, -0.299}), ball, cloth).velocity.z, 0);
  EXPECT_GT(landed(coming_down({0, 0, -0.301}), ball, cloth).velocity.z, 0);
}

TEST(ALandingBall, IsNotTouchedWhenItMovesUp) {
  const BallState rising = coming_down({1, 0, 0.3}, {0, 5, 0});
  EXPECT_EQ(landed(rising, ball, {}), rising);
}

TEST(ALandingBall, WithRollingSpinFeelsNoFriction) {
  const BallState before = coming_down({1, 0, -2}, {0, 1 / ball.radius_m, 0});
  EXPECT_NEAR(landed(before, ball, {}).velocity.x, 1, 1e-12);
}

TEST(ABallOnTheBed, LiftedByLessThanTheHopSpeedStaysDown) {
  EXPECT_EQ(settled_on_bed(coming_down({1, 0, 0.149}), ball, {}).velocity.z, 0);
  EXPECT_EQ(settled_on_bed(coming_down({1, 0, 0.151}), ball, {}).velocity.z, 0.151);
}

TEST(ABallInTheAir, DoesNotMeetTheBed) {
  BallState high = coming_down({1, 0, -2});
  high.position.z += 0.01;
  EXPECT_EQ(settled_on_bed(high, ball, {}), high);
}

RC_GTEST_PROP(ALandingBall, KeepsTheRollToCome, ()) {
  const Cloth cloth = test::any::cloth();
  const BallState before =
      coming_down({between(-5, 5), between(-5, 5), -between(0, 5)}, test::any::vector_within(200));
  const Vec2 change = rolling_velocity_to_come(landed(before, ball, cloth), ball) -
                      rolling_velocity_to_come(before, ball);
  RC_ASSERT(norm(change) < 1e-12);
}

RC_GTEST_PROP(ALandingBall, NeverGainsEnergyAndNeverReversesItsSlip, ()) {
  const Cloth cloth = test::any::cloth();
  const BallState before =
      coming_down({between(-5, 5), between(-5, 5), -between(0, 5)}, test::any::vector_within(200));
  const BallState after = landed(before, ball, cloth);
  RC_ASSERT(energy_j(after, ball) <= energy_j(before, ball) * (1 + 1e-13));
  RC_ASSERT(dot(slip(before, ball), slip(after, ball)) >= -1e-12);
}

}  // namespace
}  // namespace ahead::engine
