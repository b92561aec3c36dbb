#pragma once

#include <cmath>
#include <functional>
#include <span>
#include <vector>

#include "engine/equipment/table.h"
#include "engine/motion/ball_state.h"

/// A general rigid-body engine that plays our shots by stepping through them.
///
/// Each is set up as well as it permits: spheres on a plane; the cushions' noses are the lower
/// edges of boxes, so that the contact is above the centre as on a table; friction and restitution
/// of each kind of contact; rolling resistance and the decay of spin as torques at the bed, at most
/// so much a newton of load. No pockets. Balls that rest may sleep where the engine knows sleep.
namespace ahead::bench {

/// Where the balls come to rest when played from these states in steps of `step_s`. The first is
/// the cue ball. Requires four balls.
using Stepper = std::function<std::vector<engine::Vec2>(std::span<const engine::BallState> balls,
                                                        double step_s)>;

/// The table's pockets and rails are not looked at: four straight cushions stand around the playing
/// area. Friction between balls is BallContact::friction_a at every slip speed.
[[nodiscard]] Stepper ode_stepper(const engine::Table& table);
[[nodiscard]] Stepper bullet_stepper(const engine::Table& table);
[[nodiscard]] Stepper mujoco_stepper(const engine::Table& table);

/// A shot is over when no ball's centre and no ball's surface (spin about the vertical left out)
/// is faster. From here a rolling ball goes 4 micrometres further.
inline constexpr double still_mps = 1e-3;
/// ... or after this long: a step at which balls never come to rest is no good.
inline constexpr double longest_shot_s = 30;

inline bool is_still(engine::Vec3 velocity, engine::Vec3 spin, double radius_m) {
  return engine::norm(velocity) < still_mps && radius_m * std::hypot(spin.x, spin.y) < still_mps;
}

/// The torque that slows a rolling ball by mu_r g, for each newton of load, m: 7/5 mu_r R. From
/// m a = F and I a/R = T - F R with I = 2/5 m R^2.
inline double rolling_torque_m(const engine::Ball& ball, const engine::Cloth& cloth) {
  return 1.4 * cloth.rolling * ball.radius_m;
}

/// The torque that slows the spin about the vertical, for each newton of load, m: I alpha / (m g).
inline double spin_torque_m(const engine::Ball& ball, const engine::Cloth& cloth) {
  return 0.4 * ball.radius_m * ball.radius_m * cloth.spin_decay_radps2 / engine::gravity_mps2;
}

/// A cushion: what lies outside one edge of the playing area above the nose's height.
struct Block {
  engine::Vec3 centre;
  engine::Vec3 half;  ///< half its size along each axis, m
};

inline std::vector<Block> cushion_blocks(const engine::Table& table) {
  const double w = table.width_m;
  const double l = table.length_m;
  constexpr double deep = 0.1;   // beyond what a ball passes in one step of any use
  constexpr double high = 0.05;  // likewise
  const double z = table.nose_height_m + high;
  return {{.centre = {-deep, l / 2, z}, .half = {deep, l / 2 + 2 * deep, high}},
          {.centre = {w + deep, l / 2, z}, .half = {deep, l / 2 + 2 * deep, high}},
          {.centre = {w / 2, -deep, z}, .half = {w / 2 + 2 * deep, deep, high}},
          {.centre = {w / 2, l + deep, z}, .half = {w / 2 + 2 * deep, deep, high}}};
}

inline const engine::Ball& ball_at(const engine::Table& table, std::size_t i) {
  return i == 0 ? table.cue_ball : table.object_ball;
}

}  // namespace ahead::bench
