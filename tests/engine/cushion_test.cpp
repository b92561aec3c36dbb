#include "engine/contact/cushion.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "engine/motion/motion.h"
#include "tests/support/any.h"
#include "tests/support/dice.h"
#include "tests/support/plain_cushion.h"

// The published values are in tests/published/cushion_rows.cpp.
namespace ahead::engine {
namespace {

using test::Dice;
using test::any::between;

struct Impact {
  BallState before;
  Ball ball;
  Vec3 to_nose;
  Support support = Support::bed;
  Cushion cushion;
  Cloth cloth;
};

BallState after(const Impact& i) {
  return rebounded(i.before, i.ball, i.to_nose, i.support, i.cushion, i.cloth);
}

double closing_mps(const Impact& i) { return dot(i.before.velocity, i.to_nose); }

Vec3 nose_direction(double around_rad, double sin_theta) {
  return lift(std::sqrt(1 - sin_theta * sin_theta) * direction(around_rad), sin_theta);
}

/// Any approach: square to shallow, any spin that a ball can bring, on the bed or in the air.
Impact random_impact(Dice& dice, Support support) {
  constexpr double pi = std::numbers::pi;
  Impact i{.ball = {.radius_m = dice.between(0.0235, 0.029), .mass_kg = dice.between(0.09, 0.17)}};
  i.support = support;
  const double towards = dice.between(-pi, pi);
  const double sin_theta =
      support == Support::bed ? dice.between(0.2, 0.42) : dice.between(-0.95, 0.5);
  i.to_nose = nose_direction(towards, sin_theta);
  const double v = dice.between(0.3, 4);
  i.before.position = {0, 0, i.ball.radius_m};
  i.before.velocity = lift(v * direction(towards + dice.between(-1.45, 1.45)));
  if (support == Support::air) i.before.velocity.z = dice.between(-2, 2);
  const double turn = 1.5 * v / i.ball.radius_m;
  i.before.spin = {dice.between(-turn, turn), dice.between(-turn, turn), dice.between(-turn, turn)};
  i.cushion = {.restitution = dice.between(0.7, 0.98), .friction = dice.between(0.05, 0.3)};
  i.cloth.sliding = dice.between(0.1, 0.3);
  return i;
}

/// Largest difference in any component, spin as surface speed, as a share of the incoming speed.
double difference(const BallState& a, const BallState& b, const Impact& i) {
  const Vec3 v = a.velocity - b.velocity;
  const Vec3 w = i.ball.radius_m * (a.spin - b.spin);
  return std::max({std::abs(v.x), std::abs(v.y), std::abs(v.z), std::abs(w.x), std::abs(w.y),
                   std::abs(w.z)}) /
         norm(i.before.velocity);
}

double worst_against_plain_steps(Support support, std::uint64_t seed, int impacts) {
  Dice dice(seed);
  double worst = 0;
  for (int k = 0; k < impacts;) {
    const Impact i = random_impact(dice, support);
    // Far slower along the nose's normal than across it, the share would measure nothing.
    if (closing_mps(i) < 0.05 * norm(i.before.velocity)) continue;
    ++k;
    const BallState plain = test::rebounded_in_plain_steps(i.before, i.ball, i.to_nose, i.support,
                                                           i.cushion, i.cloth, 100'000);
    const double d = difference(after(i), plain, i);
    EXPECT_LT(d, 1e-4) << "impact " << k;
    worst = std::max(worst, d);
  }
  std::printf("largest difference from plain steps: %.2g of the incoming speed\n", worst);
  return worst;
}

TEST(ACushion, OnTheBedAgreesWithAHundredThousandPlainSteps) {
  EXPECT_LT(worst_against_plain_steps(Support::bed, 1, 250), 1e-4);
}

TEST(ACushion, InTheAirAgreesWithAHundredThousandPlainSteps) {
  EXPECT_LT(worst_against_plain_steps(Support::air, 2, 150), 1e-4);
}

// The nose stops slipping, holds for a while, and breaks loose again during the same impact.
TEST(ACushion, ThatHoldsTheBallOnlyForAWhileAgreesWithPlainSteps) {
  struct Approach {
    double from_square_rad, k, side;
  };
  for (const Approach a : {Approach{0.496, -0.512, -0.355}, Approach{-0.519, -0.410, 0.388},
                           Approach{0.495, -0.492, -0.534}}) {
    Impact i{.ball = {.radius_m = 0.0238, .mass_kg = 0.094}};
    const double R = i.ball.radius_m;
    i.to_nose = nose_direction(0, (0.03226 - R) / R);
    const Vec2 way = direction(a.from_square_rad);
    i.before = {.position = {0, 0, R},
                .velocity = lift(way),
                .spin = lift((a.k / R) * left_of(way), a.side / R)};
    const BallState plain = test::rebounded_in_plain_steps(i.before, i.ball, i.to_nose, i.support,
                                                           i.cushion, i.cloth, 100'000);
    EXPECT_LT(difference(after(i), plain, i), 1e-4) << a.from_square_rad;
  }
}

// A hundred steps, the paper's number, are far off: the comparison above can tell.
TEST(ACushion, IsFarFromAHundredPlainSteps) {
  Dice dice(3);
  double worst = 0;
  for (int k = 0; k < 50; ++k) {
    const Impact i = random_impact(dice, Support::bed);
    if (closing_mps(i) < 0.05 * norm(i.before.velocity)) continue;
    worst = std::max(
        worst, difference(after(i),
                          test::rebounded_in_plain_steps(i.before, i.ball, i.to_nose, i.support,
                                                         i.cushion, i.cloth, 100),
                          i));
  }
  EXPECT_GT(worst, 1e-3);
}

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
