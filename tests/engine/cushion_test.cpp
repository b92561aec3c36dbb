#include "engine/contact/cushion.h"

#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "engine/motion/motion.h"
#include "tests/support/any.h"
#include "tests/support/dice.h"
#include "tests/support/random_impact.h"

// The published values are in tests/published/cushion_rows.cpp, the comparison with an independent
// solution of the equations in tests/independent/cushion_test.cpp.
namespace ahead::engine {
namespace {

using test::after;
using test::closing_mps;
using test::Dice;
using test::difference;
using test::Impact;
using test::nose_direction;
using test::random_impact;
using test::any::between;

// Random impacts for the properties, from one number.
Impact any_impact() {
  Dice dice(*rc::gen::arbitrary<std::uint64_t>());
  const bool on_bed = *rc::gen::arbitrary<bool>();
  Impact i = random_impact(dice, on_bed ? Support::bed : Support::air);
  RC_PRE(closing_mps(i) > 0.02 * norm(i.before.velocity));
  return i;
}

RC_GTEST_PROP(ACushion, ScalesWithTheSpeed, ()) {
  const Impact slow = any_impact();
  Impact fast = slow;
  const double factor = between(1, 10);
  fast.before.velocity = factor * slow.before.velocity;
  fast.before.spin = factor * slow.before.spin;

  BallState scaled = after(slow);
  scaled.velocity = factor * scaled.velocity;
  scaled.spin = factor * scaled.spin;

  RC_ASSERT(difference(after(fast), scaled, fast) < 1e-9);
}

RC_GTEST_PROP(ACushion, InAMirrorGivesTheMirroredResult, ()) {
  const Impact one = any_impact();
  const auto mirrored = [](const BallState& s) {
    return BallState{.position = {-s.position.x, s.position.y, s.position.z},
                     .velocity = {-s.velocity.x, s.velocity.y, s.velocity.z},
                     .spin = {s.spin.x, -s.spin.y, -s.spin.z}};
  };
  Impact other = one;
  other.before = mirrored(one.before);
  other.to_nose.x = -one.to_nose.x;
  RC_ASSERT(difference(after(other), mirrored(after(one)), one) < 1e-9);
}

RC_GTEST_PROP(ACushion, GivesTheSameAnswerWhicheverWayItFaces, ()) {
  const Impact one = any_impact();
  const double turn_rad = test::any::angle_rad();
  const auto turned = [&](Vec3 a) {
    const Vec2 x = direction(turn_rad);
    return lift(a.x * x + a.y * left_of(x), a.z);
  };
  Impact other = one;
  other.before.velocity = turned(one.before.velocity);
  other.before.spin = turned(one.before.spin);
  other.to_nose = turned(one.to_nose);
  BallState expected = after(one);
  expected.velocity = turned(expected.velocity);
  expected.spin = turned(expected.spin);
  RC_ASSERT(difference(after(other), expected, one) < 1e-7);
}

RC_GTEST_PROP(ACushion, NeverGivesEnergyAndAlwaysSendsTheBallAway, ()) {
  const Impact i = any_impact();
  const BallState gone = after(i);
  RC_ASSERT(energy_j(gone, i.ball) <= energy_j(i.before, i.ball));
  RC_ASSERT(dot(gone.velocity, i.to_nose) < 0);
}

TEST(ACushion, WithoutFrictionGivesBackItsRestitution) {
  const double sin_theta = 0.27;
  Impact i{.before = {.velocity = {2, 0, 0}},
           .to_nose = nose_direction(0, sin_theta),
           .cushion = {.restitution = 0.8, .friction = 0}};
  i.cloth.sliding = 0;
  EXPECT_NEAR(after(i).velocity.x, -0.8 * 2, 1e-6);
}

TEST(ACushion, TouchedByACreepingBallGivesNothingBack) {
  const Impact i{.before = {.velocity = {0.9e-4, 0, 0}}, .to_nose = nose_direction(0, 0.27)};
  EXPECT_NEAR(after(i).velocity.x, 0, 1e-9);
}

TEST(TheNose, IsReachedCloserThanTheRadius) {
  const Ball ball{.radius_m = 0.0254};
  EXPECT_NEAR(nose_reach_m(ball, 0.0254), 0.0254, 1e-15);
  EXPECT_NEAR(nose_reach_m(ball, 1.6 * 0.0254), 0.8 * 0.0254, 1e-15);
}

}  // namespace
}  // namespace ahead::engine
