#include "engine/motion/motion.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "tests/support/any.h"

// The published closed forms (docs/physics.md, B) are in tests/published/motion_rows.cpp.
namespace ahead::engine {
namespace {

using test::any::between;

constexpr Ball ball{.radius_m = 0.0254, .mass_kg = 0.116};

BallState rolling(double v_mps) {
  return {.position = {0, 0, ball.radius_m},
          .velocity = {v_mps, 0, 0},
          .spin = {0, v_mps / ball.radius_m, 0}};
}

TEST(ABall, ObeysTheLawOfItsState) {
  const double R = ball.radius_m;
  EXPECT_EQ(phase_of({.position = {0, 0, R}}, ball), Phase::rest);
  EXPECT_EQ(phase_of({.position = {0, 0, R}, .spin = {0, 0, 3}}, ball), Phase::spinning);
  EXPECT_EQ(phase_of({.position = {0, 0, R}, .spin = {3, 0, 0}}, ball), Phase::sliding);
  EXPECT_EQ(phase_of({.position = {0, 0, R}, .velocity = {1, 0, 0}}, ball), Phase::sliding);
  EXPECT_EQ(phase_of(rolling(1), ball), Phase::rolling);
  EXPECT_EQ(phase_of({.position = {0, 0, R}, .velocity = {0, 0, 1}}, ball), Phase::airborne);
  EXPECT_EQ(phase_of({.position = {0, 0, R + 0.01}}, ball), Phase::airborne);
}

TEST(ABall, AtRestStaysThere) {
  const BallState rest{.position = {0.3, 0.4, ball.radius_m}};
  EXPECT_EQ(phase_duration_s(Phase::rest, rest, ball, {}), std::numeric_limits<double>::infinity());
  EXPECT_EQ(advance(Phase::rest, rest, ball, {}, 5), rest);
}

TEST(ARollingBall, KeepsItsSpinTiedToItsSpeed) {
  const Cloth cloth;
  const BallState later = advance(Phase::rolling, rolling(1), ball, cloth, 3);
  EXPECT_LT(norm(slip(later, ball)), 1e-15);
  EXPECT_NEAR(later.velocity.x, 1 - cloth.rolling * gravity_mps2 * 3, 1e-15);
}

TEST(ARollingBall, WithSideDoesNotCurve) {
  BallState state = rolling(1);
  state.spin.z = 60;
  const BallState later = advance(Phase::rolling, state, ball, {}, 2);
  EXPECT_EQ(later.position.y, 0);
  EXPECT_NEAR(later.spin.z, 40, 1e-12);
}

TEST(SpinAboutTheVertical, DiesWithoutChangingItsSense) {
  BallState state = rolling(1);
  state.spin.z = -5;
  EXPECT_NEAR(advance(Phase::rolling, state, ball, {}, 0.2).spin.z, -3, 1e-12);
  EXPECT_EQ(advance(Phase::rolling, state, ball, {}, 2).spin.z, 0);
}

TEST(AnAirborneBall, KeepsItsSpinAndComesDownWhereGravitySays) {
  const BallState thrown{
      .position = {0, 0, ball.radius_m}, .velocity = {1, 0, 2}, .spin = {1, 2, 3}};
  const double t_s = phase_duration_s(Phase::airborne, thrown, ball, {});
  const BallState down = at_phase_end(Phase::airborne, thrown, ball, {}, t_s);
  EXPECT_NEAR(t_s, 2 * 2 / gravity_mps2, 1e-15);
  EXPECT_EQ(down.position.z, ball.radius_m);
  EXPECT_NEAR(down.velocity.z, -2, 1e-14);
  EXPECT_EQ(down.spin, thrown.spin);
}

TEST(TheEnergy, OfARollingBallIsSevenTenthsMVSquared) {
  EXPECT_NEAR(energy_j(rolling(2), ball), 0.7 * ball.mass_kg * 4, 1e-15);
}

// No push at the cloth can change the roll to come, whatever the strike and the cloth.
RC_GTEST_PROP(ASlidingBall, KeepsTheRollToComeAtEveryMoment, ()) {
  const Ball any_ball = test::any::ball();
  const BallState start = test::any::on_bed(any_ball);
  const Cloth cloth = test::any::cloth();
  const double t_s = between(0, 1) * phase_duration_s(Phase::sliding, start, any_ball, cloth);

  const BallState later = advance(Phase::sliding, start, any_ball, cloth, t_s);

  const Vec2 change =
      rolling_velocity_to_come(later, any_ball) - rolling_velocity_to_come(start, any_ball);
  RC_ASSERT(norm(change) < 1e-12);
}

RC_GTEST_PROP(ASlidingBall, KeepsTheDirectionOfItsSlip, ()) {
  const Ball any_ball = test::any::ball();
  const BallState start = test::any::on_bed(any_ball);
  const Cloth cloth = test::any::cloth();
  const double t_s = between(0, 0.99) * phase_duration_s(Phase::sliding, start, any_ball, cloth);
  RC_PRE(norm(slip(start, any_ball)) > 0.01);

  const Vec2 before = slip(start, any_ball);
  const Vec2 after = slip(advance(Phase::sliding, start, any_ball, cloth, t_s), any_ball);

  RC_ASSERT(std::abs(cross(unit(before), unit(after))) < 1e-9);
  RC_ASSERT(dot(before, after) > 0);
  RC_ASSERT(std::abs(norm(before) - norm(after) - 3.5 * cloth.sliding * gravity_mps2 * t_s) < 1e-9);
}

RC_GTEST_PROP(ASlidingBall, RollsWhenItsSlideEnds, ()) {
  const Ball any_ball = test::any::ball();
  const BallState start = test::any::on_bed(any_ball);
  const Cloth cloth = test::any::cloth();
  RC_PRE(norm(slip(start, any_ball)) > 1e-6);
  const double t_s = phase_duration_s(Phase::sliding, start, any_ball, cloth);

  const BallState end = at_phase_end(Phase::sliding, start, any_ball, cloth, t_s);

  RC_ASSERT(phase_of(end, any_ball) != Phase::sliding);
  RC_ASSERT(norm(end.velocity - advance(Phase::sliding, start, any_ball, cloth, t_s).velocity) <
            1e-5);
}

/// The law in which a random ball is tested.
struct Flight {
  Ball ball;
  Cloth cloth;
  Phase phase = Phase::rest;
  BallState start;
  double lasts_s = 0;
};

Flight any_flight() {
  const Ball any_ball = test::any::ball();
  BallState start = test::any::on_bed(any_ball);
  const int kind = *rc::gen::inRange(0, 3);
  if (kind == 1) {
    const Vec2 spin = left_of(plan(start.velocity)) / any_ball.radius_m;
    start.spin.x = spin.x;
    start.spin.y = spin.y;
  } else if (kind == 2) {
    start.position.z += between(0, 0.2);
    start.velocity.z = between(-2, 4);
  }
  const Phase phase = kind == 0 ? Phase::sliding : kind == 1 ? Phase::rolling : Phase::airborne;
  const Cloth cloth = test::any::cloth();
  return {any_ball, cloth, phase, start, phase_duration_s(phase, start, any_ball, cloth)};
}

// Finite differences of the path and of the velocity.
RC_GTEST_PROP(Motion, HasTheVelocityAsTheSlopeOfItsPathAndTheAccelerationAsThatOfItsVelocity, ()) {
  const Flight f = any_flight();
  const double h = 1e-6;
  RC_PRE(f.lasts_s > 0.01);
  const double t = between(0.05, 0.9) * f.lasts_s;
  const auto at = [&](double t_s) { return advance(f.phase, f.start, f.ball, f.cloth, t_s); };

  const Vec3 slope = (at(t + h).position - at(t - h).position) / (2 * h);
  const Vec3 bend = (at(t + h).velocity - at(t - h).velocity) / (2 * h);

  RC_ASSERT(norm(slope - at(t).velocity) < 1e-7);
  RC_ASSERT(norm(bend - acceleration(f.phase, f.start, f.ball, f.cloth)) < 1e-6);
}

RC_GTEST_PROP(Motion, IsTheSameInOneStepOrInTwo, ()) {
  const Flight f = any_flight();
  const double t = between(0, 0.99) * f.lasts_s;
  const double part = between(0, 1) * t;

  const BallState once = advance(f.phase, f.start, f.ball, f.cloth, t);
  const BallState halfway = advance(f.phase, f.start, f.ball, f.cloth, part);
  const BallState twice = advance(f.phase, halfway, f.ball, f.cloth, t - part);

  RC_ASSERT(norm(once.position - twice.position) < 1e-9);
  RC_ASSERT(norm(once.velocity - twice.velocity) < 1e-9);
  RC_ASSERT(norm(once.spin - twice.spin) < 1e-7);
}

RC_GTEST_PROP(Motion, NeverGainsEnergy, ()) {
  const Flight f = any_flight();
  const double early = between(0, 1) * f.lasts_s;
  const double late = early + between(0, 1) * (f.lasts_s - early);
  const auto energy = [&](double t_s) {
    return energy_j(advance(f.phase, f.start, f.ball, f.cloth, t_s), f.ball);
  };
  RC_ASSERT(energy(late) <= energy(early) * (1 + 1e-13) + 1e-15);
}

}  // namespace
}  // namespace ahead::engine
