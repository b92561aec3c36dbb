#pragma once

#include "engine/equipment/table.h"
#include "engine/motion/ball_state.h"

/// The contacts of docs/physics.md, D1 and E1 and the bed rule of B4, written again from the text.
///
/// They share the engine's plain data types and none of its formulas. The cushion's impulse
/// equations are solved by Boost.Odeint.
namespace ahead::independent {

/// The bed rule: the ball comes down, bounces or stays, and its slip is rubbed.
[[nodiscard]] engine::BallState landed(engine::BallState ball, const engine::Ball& of,
                                       const engine::Cloth& cloth);

/// Two balls meet as a pair. Each is changed in place; the bed has not answered yet.
void collide(engine::BallState& first, const engine::Ball& first_ball, engine::BallState& second,
             const engine::Ball& second_ball, const engine::BallContact& contact);

/// How the cushion's equations are solved.
struct Solution {
  /// Slip, as a share of the closing speed, over which friction passes from one sense to the other:
  /// a contact that sticks creeps by less than this.
  double soft_slip = 1e-6;
  double tolerance = 1e-9;
};

/// The ball after it has met the nose in the direction `to_nose` (unit) from its centre.
[[nodiscard]] engine::BallState rebounded(const engine::BallState& before, const engine::Ball& of,
                                          engine::Vec3 to_nose, bool on_bed,
                                          const engine::Cushion& cushion,
                                          const engine::Cloth& cloth, const Solution& how = {});

}  // namespace ahead::independent
