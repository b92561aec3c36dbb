#include "engine/contact/ball_ball.h"

#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "engine/contact/landing.h"
#include "engine/motion/motion.h"
#include "tests/support/any.h"

// The published planar values are in tests/published/ball_ball_rows.cpp.
namespace ahead::engine {
namespace {

using test::any::Meeting;

struct After {
  BallState first;
  BallState second;
};

After met(const Meeting& m, const BallContact& contact) {
  const auto [first, second] = collided(m.first, m.first_ball, m.second, m.second_ball, contact);
  return {first, second};
}

double energy(const Meeting& m, const BallState& first, const BallState& second) {
  return energy_j(first, m.first_ball) + energy_j(second, m.second_ball);
}

RC_GTEST_PROP(TwoBalls, KeepTheirMomentum, ()) {
  const Meeting m = test::any::meeting();
  const After after = met(m, test::any::ball_contact());
  const double m1 = m.first_ball.mass_kg;
  const double m2 = m.second_ball.mass_kg;
  const Vec3 before = m1 * m.first.velocity + m2 * m.second.velocity;
  const Vec3 now = m1 * after.first.velocity + m2 * after.second.velocity;
  RC_ASSERT(norm(now - before) < 1e-9 * (m1 + m2) * 5);
}

// The impulse acts at the contact: about that point, neither ball's angular momentum changes.
RC_GTEST_PROP(TwoBalls, KeepEachItsAngularMomentumAboutTheContact, ()) {
  const Meeting m = test::any::meeting();
  const After after = met(m, test::any::ball_contact());
  const Vec3 n = unit(m.second.position);
  const auto about_contact = [](const BallState& state, const Ball& ball, Vec3 to_centre) {
    return inertia(ball) * state.spin + ball.mass_kg * cross(to_centre, state.velocity);
  };
  const Vec3 to_first = -m.first_ball.radius_m * n;
  const Vec3 to_second = m.second_ball.radius_m * n;
  RC_ASSERT(norm(about_contact(after.first, m.first_ball, to_first) -
                 about_contact(m.first, m.first_ball, to_first)) < 1e-13);
  RC_ASSERT(norm(about_contact(after.second, m.second_ball, to_second) -
                 about_contact(m.second, m.second_ball, to_second)) < 1e-13);
}

RC_GTEST_PROP(TwoBalls, NeverGainEnergy, ()) {
  const Meeting m = test::any::meeting();
  const After after = met(m, test::any::ball_contact());
  RC_ASSERT(energy(m, after.first, after.second) <= energy(m, m.first, m.second) * (1 + 1e-13));
}

RC_GTEST_PROP(TwoBalls, PartWithTheRestitutionOfTheirApproach, ()) {
  const Meeting m = test::any::meeting();
  const BallContact contact = test::any::ball_contact();
  const After after = met(m, contact);
  const Vec3 n = unit(m.second.position);
  const double closing = dot(m.first.velocity - m.second.velocity, n);
  const double parting = dot(after.second.velocity - after.first.velocity, n);
  RC_ASSERT(std::abs(parting - contact.restitution * closing) < 1e-12);
}

RC_GTEST_PROP(TwoBalls, NeverReverseTheirSlip, ()) {
  const Meeting m = test::any::meeting();
  const After after = met(m, test::any::ball_contact());
  const Vec3 n = unit(m.second.position);
  const Vec3 before = surface_slip(m.first, m.first_ball, m.second, m.second_ball, n);
  const Vec3 now = surface_slip(after.first, m.first_ball, after.second, m.second_ball, n);
  RC_ASSERT(dot(before, now) >= -1e-12 * dot(before, before));
  RC_ASSERT(norm(now) <= norm(before) * (1 + 1e-12));
}

RC_GTEST_PROP(TwoBalls, DoNotCareWhichIsCalledTheFirst, ()) {
  const Meeting m = test::any::meeting();
  const BallContact contact = test::any::ball_contact();
  const After one = met(m, contact);
  const auto [second, first] = collided(m.second, m.second_ball, m.first, m.first_ball, contact);
  RC_ASSERT(norm(one.first.velocity - first.velocity) < 1e-13);
  RC_ASSERT(norm(one.second.velocity - second.velocity) < 1e-13);
  RC_ASSERT(norm(one.first.spin - first.spin) < 1e-10);
  RC_ASSERT(norm(one.second.spin - second.spin) < 1e-10);
}

RC_GTEST_PROP(TwoBalls, InAMirrorGiveTheMirroredResult, ()) {
  const Meeting m = test::any::meeting();
  const BallContact contact = test::any::ball_contact();
  // A mirror at x = 0: x of places and velocities, y and z of spins.
  const auto mirrored = [](const BallState& s) {
    return BallState{.position = {-s.position.x, s.position.y, s.position.z},
                     .velocity = {-s.velocity.x, s.velocity.y, s.velocity.z},
                     .spin = {s.spin.x, -s.spin.y, -s.spin.z}};
  };
  const After one = met(m, contact);
  const auto [first, second] =
      collided(mirrored(m.first), m.first_ball, mirrored(m.second), m.second_ball, contact);
  RC_ASSERT(norm(mirrored(one.first).velocity - first.velocity) < 1e-13);
  RC_ASSERT(norm(mirrored(one.second).spin - second.spin) < 1e-10);
}

TEST(TwoBalls, ThatBarelyCloseGiveNothingBack) {
  const Ball ball;
  const BallState first{.velocity = {0.9 * dead_contact_mps, 0, 0}};
  const BallState second{.position = {2 * ball.radius_m, 0, 0}};
  const auto [a, b] = collided(first, ball, second, ball, {.friction_a = 0, .friction_b = 0});
  EXPECT_NEAR(a.velocity.x, b.velocity.x, 1e-18);
}

TEST(BallFriction, FallsWithTheSlipFromTheMarlowFit) {
  const BallContact contact;
  EXPECT_NEAR(ball_friction(contact, 0), 0.11795, 1e-12);
  EXPECT_NEAR(ball_friction(contact, 1), 0.00995 + 0.108 * std::exp(-1.088), 1e-15);
  EXPECT_GT(ball_friction(contact, 0.5), ball_friction(contact, 2));
}

// A lighter, smaller cue ball stunned full on an object ball, both on the bed. The line of centres
// rises by asin(1.6/49.2) = 1.8636 degrees (cos 0.999471, sin 0.032520), so the cue ball is pressed
// into the bed, and the bed's friction takes back part of the recoil of the planar rule.
//
//   impulse along the line      J / m1 = 1.94 * 116/210 * 0.999471 v = 1.071052 v
//   stick friction across it    2/7 * 116/210 * 0.032520 v           = 0.005132 v, along (sin,
//   -cos) after the balls             x: 1 - 1.071052 cos - 0.005132 sin   = -0.070652 v
//                               z: -1.071052 sin + 0.005132 cos      = -0.029701 v
//   bed, rebound below the hop  x: + 0.20 * 0.029701                 = -0.064712 v
//   bed, rebound of one half    x: + 0.20 * 0.029701 * 1.5           = -0.061742 v
//
// The planar rule gives (1 - 0.94 * 116/94)/(1 + 116/94) = -0.0716 v. The rebound of one half needs
// 0.5 * 0.0297 v > 0.15 m/s, a shot of more than 10 m/s.
struct StunRecoil {
  double v_mps;
  double recoils_at;
};

class TheLightCueBall : public ::testing::TestWithParam<StunRecoil> {};

TEST_P(TheLightCueBall, RecoilsFromAFullStunShotByLessThanThePlanarRuleSays) {
  const Ball cue_ball{.radius_m = 0.0238, .mass_kg = 0.094};
  const Ball object_ball{.radius_m = 0.0254, .mass_kg = 0.116};
  const double v = GetParam().v_mps;
  const BallState cue{.position = {0, 0, cue_ball.radius_m}, .velocity = {v, 0, 0}};
  const double apart_m = 2 * std::sqrt(cue_ball.radius_m * object_ball.radius_m);
  const BallState object{.position = {apart_m, 0, object_ball.radius_m}};

  const BallState after = collided(cue, cue_ball, object, object_ball, {}).first;
  const BallState settled = settled_on_bed(after, cue_ball, {});

  EXPECT_NEAR(settled.velocity.x / v, GetParam().recoils_at, 1e-5);
}

INSTANTIATE_TEST_SUITE_P(AtTwoSpeeds, TheLightCueBall,
                         ::testing::Values(StunRecoil{2, -0.064712}, StunRecoil{12, -0.061742}));

}  // namespace
}  // namespace ahead::engine
