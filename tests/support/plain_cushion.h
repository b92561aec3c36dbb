#pragma once

#include "engine/contact/cushion.h"

/// The cushion of docs/physics.md, E1, in the plainest steps: the text of the model, line by line.
/// Slow, and right in the limit of many steps; engine/contact/cushion.cpp is held against it.
namespace ahead::test {

/// The ball after the impact, in steps of closing speed / `steps` of normal impulse per unit mass.
[[nodiscard]] engine::BallState rebounded_in_plain_steps(
    const engine::BallState& before, const engine::Ball& ball, engine::Vec3 to_nose,
    engine::Support support, const engine::Cushion& cushion, const engine::Cloth& cloth, int steps);

}  // namespace ahead::test
