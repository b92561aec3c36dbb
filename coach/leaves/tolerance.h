#pragma once

#include <array>

#include "coach/leaves/wanted.h"
#include "coach/player/scatter.h"
#include "coach/risk/tries.h"

/// How far the played strike may fall from the intended one, each thing by itself, and what comes
/// of it when it falls further.
namespace ahead::coach {

struct Span {
  double low = 0;   ///< zero or less
  double high = 0;  ///< zero or more
};

/// In the units of Slip. Beyond six of the player's sigmas nothing is looked for.
struct Tolerances {
  Span direction_rad;
  Span pace;
  Span tip_height_m;
  Span tip_side_m;
};

/// The strike still pots, legally, and leaves the cue ball where it is wanted (for a next pot:
/// where that has at least 0.8 of the chance it has as meant). All zero when it does not as meant.
[[nodiscard]] Tolerances tolerances_of(const Scene& scene, const Position& position,
                                       const Call& call, const Worth& worth);

/// The strike played one and a half sigmas off in one thing.
struct Miss {
  Slip slip;
  bool potted = false;
  engine::Vec2 rest;  ///< of the cue ball
  double off_m = 0;   ///< of what was wanted; 0 inside
  double worth = 0;   ///< of the place, when potted
};

/// Too hard, too soft, to the left, to the right.
[[nodiscard]] std::array<Miss, 4> misses_of(const Scene& scene, const Position& position,
                                            const Call& call, const Worth& worth);

}  // namespace ahead::coach
