#pragma once

#include "engine/equipment/ball.h"
#include "engine/equipment/surfaces.h"
#include "engine/motion/ball_state.h"

/// A ball meets the cushion's nose (or a jaw), by integrating the impact in the normal impulse.
///
/// The nose is a line at height h; a ball on the bed is touched above its centre, at
/// sin(t) = (h - R)/R. While the nose pushes, friction acts at the nose and, for a ball on the bed,
/// at the cloth, each against its own slip: compression until v.c = 0 with work W, then restitution
/// until e^2 W has been given back. The answer scales with speed.
///
/// On the bed the slips turn, stop and stick, and are integrated (nose_impact.h), to 2e-5
/// of the incoming speed, so that a ball stops within 0.1 ms of where the exact solution stops it
/// (tests/independent/ compares with a general-purpose solver). In the air the one slip keeps its
/// direction, and the answer is in closed form.
///
/// Source: Mathavan, Jackson and Parkin, Proc. IMechE C 224 (2010) 1863; docs/physics.md, E1.
namespace ahead::engine {

/// Horizontal distance from the ball's centre to the nose line when a ball on the bed touches it,
/// m: R cos t.
[[nodiscard]] double nose_reach_m(const Ball& ball, double nose_height_m);

enum class Support { bed, air };

/// The ball after the impact. `to_nose` is the unit vector from its centre to the contact.
/// Requires that the ball approaches: dot(before.velocity, to_nose) > 0.
[[nodiscard]] BallState rebounded(const BallState& before, const Ball& ball, Vec3 to_nose,
                                  Support support, const Cushion& cushion, const Cloth& cloth);

}  // namespace ahead::engine
