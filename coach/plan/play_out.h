#pragma once

#include <cstdint>
#include <vector>

#include "coach/plan/value_field.h"
#include "coach/risk/tries.h"

/// Whole clearances played out with the player's errors.
///
/// After each shot the next one is chosen again from where the balls really are
/// (plan/quick_choice.h), more quickly and coarsely than by the planner. What that costs, the
/// chance that is shown puts right (plan/clear_chance.h).
namespace ahead::coach {

/// How one of them ended.
struct RunEnd {
  bool cleared = false;
  bool began = false;  ///< the first shot went well
  bool foul = false;
  bool in_hand = false;  ///< the cue ball was potted or left the table
  Position left;         ///< the balls when it broke down
};

/// Plays `first` and then on, `runs` times; run i uses stream i.
[[nodiscard]] std::vector<RunEnd> runs_of(const Scene& scene, const ValueField& field,
                                          const Position& position, const Call& first, int runs,
                                          std::uint64_t seed, long& simulated_shots);

}  // namespace ahead::coach
