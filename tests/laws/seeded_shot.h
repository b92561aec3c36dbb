#pragma once

#include <cstdint>
#include <vector>

#include "engine/contact/strike.h"
#include "engine/simulate/simulate.h"

/// A shot that one number names, from a family wide enough to try the laws: every preset table, cue
/// balls of other size and mass, one to sixteen balls (scattered, in packs and rows that touch, at
/// the cushions, in the jaws), strikes from a nudge to the hardest that a file may ask for, level
/// or raised until the cue ball jumps.
namespace ahead::test {

struct SeededShot {
  const engine::Playfield* field = nullptr;  ///< lives as long as the program
  std::vector<engine::Vec2> balls;           ///< ball 0 is the cue ball
  engine::Strike strike;
  bool mirror_ends = false;  ///< which mirror to hold it to: the ends, or left and right
  double cut_share = 0;      ///< where to cut it, as a share of the time that it takes
};

[[nodiscard]] SeededShot seeded_shot(std::uint64_t seed);

}  // namespace ahead::test
