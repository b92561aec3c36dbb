#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "engine/motion/ball_state.h"
#include "engine/simulate/simulate.h"

/// Bytes to states of a table that are hard by construction, so that a fuzzer does not have to find
/// them among random numbers.
///
/// Every ball takes a few bytes: where it is (anywhere, at a cushion, in the jaws, touching one or
/// two balls that are there already, in the air) and how it moves (at rest, struck by the cue, onto
/// a ball full or so that it just grazes it, so that it arrives together with another, along the
/// cushion, turning on the spot, hardly at all, or faster than anything in a room).
namespace ahead::fuzz {

struct HardState {
  const engine::Playfield* field = nullptr;  ///< lives as long as the program
  std::vector<engine::BallState> balls;
  bool huge = false;  ///< some ball is faster than a shot can make it
};

[[nodiscard]] HardState hard_state(const std::uint8_t* bytes, std::size_t size);

}  // namespace ahead::fuzz
