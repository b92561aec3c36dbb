#pragma once

#include "engine/motion/ball_state.h"
#include "engine/simulate/playfield.h"

/// A ball that has come to the nose line leaves it.
namespace ahead::engine {

/// The ball after it has met the nose at `nose` (plan view of the contact) and the bed has
/// answered. On the bed the contact's tilt follows from the heights alone, and what the ball has
/// sunk into the cushion (next_contact.h) is taken out. Unchanged when it does not approach.
[[nodiscard]] BallState off_nose(const BallState& at_nose, const Runner& runner, Vec2 nose,
                                 const Table& table);

}  // namespace ahead::engine
