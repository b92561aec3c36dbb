#pragma once

#include "engine/equipment/ball.h"
#include "engine/equipment/surfaces.h"
#include "engine/motion/ball_state.h"

/// A ball comes down on the bed.
///
/// It leaves with v_z' = e_b |v_z|, or 0 if that is below the hop speed. The bed's impulse
/// J = m (|v_z| + v_z') brings friction of at most mu_s J, and at most what stops the slip,
/// 2/7 m |u|, against the slip u.
///
/// Source: Coulomb impact of a sphere; docs/physics.md, B4. No horizontal impulse at the lowest
/// point changes the roll to come (motion/motion.h).
namespace ahead::engine {

/// The ball after it has met the bed. Unchanged when it does not move down.
[[nodiscard]] BallState landed(const BallState& before, const Ball& ball, const Cloth& cloth);

/// A ball on the bed after an impact: pressed down, it meets the bed; lifted by less than the hop
/// speed, it stays down. A ball in the air is not changed.
[[nodiscard]] BallState settled_on_bed(const BallState& after_impact, const Ball& ball,
                                       const Cloth& cloth);

}  // namespace ahead::engine
