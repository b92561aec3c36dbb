#pragma once

#include <cmath>
#include <cstdint>
#include <numbers>

#include <rapidcheck.h>

#include "engine/contact/strike.h"
#include "engine/equipment/table.h"
#include "engine/motion/ball_state.h"
#include "tests/support/random_shots.h"

/// Random values for rapidcheck properties: call inside a property, `any::between(0, 1)`.
///
/// Numbers are drawn as whole multiples of a millionth of the interval, so that rapidcheck can
/// shrink a failing case to a readable one.
namespace ahead::test::any {

inline double between(double low, double high) {
  constexpr int steps = 1'000'000;
  const int step = *rc::gen::inRange(0, steps + 1);
  return low + (high - low) * step / steps;
}

inline double angle_rad() { return between(-std::numbers::pi, std::numbers::pi); }

inline engine::Vec3 vector_within(double largest) {
  return {between(-largest, largest), between(-largest, largest), between(-largest, largest)};
}

inline engine::Vec3 direction_in_space() {
  const double z = between(-1, 1);
  return lift(std::sqrt(1 - z * z) * engine::direction(angle_rad()), z);
}

inline engine::Ball ball() {
  return {.radius_m = between(0.02, 0.035), .mass_kg = between(0.07, 0.25)};
}

inline engine::Cloth cloth() {
  return {.sliding = between(0.1, 0.4),
          .rolling = between(0.005, 0.02),
          .spin_decay_radps2 = between(5, 15),
          .bed_restitution = between(0.2, 0.8)};
}

/// On the bed, up to 8 m/s, with any spin that a cue or a collision could leave.
inline engine::BallState on_bed(const engine::Ball& ball) {
  return {.position = {between(-1, 1), between(-1, 1), ball.radius_m},
          .velocity = lift(between(0, 8) * engine::direction(angle_rad())),
          .spin = vector_within(200)};
}

/// Two balls in contact anywhere in space that approach each other.
struct Meeting {
  engine::Ball first_ball, second_ball;
  engine::BallState first, second;
};

inline Meeting meeting() {
  Meeting m{.first_ball = ball(), .second_ball = ball(), .first = {}, .second = {}};
  const engine::Vec3 n = direction_in_space();
  m.second.position = (m.first_ball.radius_m + m.second_ball.radius_m) * n;
  m.first.velocity = vector_within(5);
  m.second.velocity = vector_within(5);
  m.first.spin = vector_within(200);
  m.second.spin = vector_within(200);
  RC_PRE(dot(m.first.velocity - m.second.velocity, n) > 0.01);
  return m;
}

inline engine::BallContact ball_contact() {
  return {.restitution = between(0.5, 1), .friction_b = between(0, 0.3)};
}

/// A layout and a strike drawn from one number: it does not shrink, but its seed says it all.
inline RandomShot shot(const engine::Table& table) {
  Dice dice(*rc::gen::arbitrary<std::uint64_t>());
  return random_shot(dice, table);
}

}  // namespace ahead::test::any
