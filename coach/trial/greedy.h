#pragma once

#include <cstdint>
#include <optional>

#include "coach/risk/tries.h"

/// The player who takes the easiest pot and lets the cue ball run.
///
/// Struck in the middle of the cue ball, at the pace that pots best; what comes next is not asked.
/// A yardstick for the planner.
namespace ahead::coach {

struct EasiestPot {
  Call call;
  double chance = 0;  ///< that the ball is potted and the visit goes on
};

/// Nothing when no ball that is on can be potted so.
[[nodiscard]] std::optional<EasiestPot> easiest_pot(const Scene& scene, const Position& position,
                                                    std::uint64_t seed, long& simulated_shots);

}  // namespace ahead::coach
