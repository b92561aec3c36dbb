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
/// (plan/quick_choice.h), more quickly and coarsely than by the planner. What that costs has been
/// measured once and for all, and is put right.
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

/// The chance of clearing for a player who plans anew after every shot, as the runs from `position`
/// show it. The first shot counts as often as it went well; the odds of the rest are those of the
/// runs, put right by what planning anew made of other layouts (docs/planning.md). With two balls
/// to clear or one there is little to plan, and it is the share that cleared. Requires a run.
///
/// Source of the form: Platt, Advances in Large Margin Classifiers (1999), from memory.
[[nodiscard]] Chance clear_chance(const Scene& scene, const Position& position,
                                  std::span<const RunEnd> runs);

}  // namespace ahead::coach
