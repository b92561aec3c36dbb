#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "coach/plan/value_field.h"
#include "coach/risk/chance.h"
#include "coach/risk/tries.h"

/// Whole clearances played out with the player's errors: the chance that is shown.
///
/// After each shot the next one is chosen again from where the balls really are
/// (plan/quick_choice.h). The choice is quicker and coarser than the planner's own, so the share
/// cleared is, if anything, low.
namespace ahead::coach {

/// How one of them ended.
struct RunEnd {
  bool cleared = false;
  bool foul = false;
  bool in_hand = false;  ///< the cue ball was potted or left the table
  Position left;         ///< the balls when it broke down
};

/// Plays `first` and then on, `runs` times; run i uses stream i.
[[nodiscard]] std::vector<RunEnd> runs_of(const Scene& scene, const ValueField& field,
                                          const Position& position, const Call& first, int runs,
                                          std::uint64_t seed, long& simulated_shots);

/// The share that cleared.
[[nodiscard]] Chance cleared_share(std::span<const RunEnd> runs);

}  // namespace ahead::coach
