#pragma once

#include <cstddef>
#include <span>

#include "engine/equipment/ball.h"
#include "engine/motion/ball_state.h"

/// Balls that have sunk into each other by a hair, as balls that touch and barely close are let do
/// before their contact is resolved.
namespace ahead::engine {

/// The most balls that are parted at once.
inline constexpr std::size_t most_balls = 32;

/// Moves them apart, back to contact, on the level, which changes no energy; only where one is
/// almost right above the other is it raised. All the shifts are found before any is made, so that
/// the order of listing cannot matter. Requires as many balls as states, at most `most_balls`.
void part(std::span<BallState> states, std::span<const Ball> balls);

}  // namespace ahead::engine
