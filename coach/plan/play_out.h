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
///
/// Choosing a shot takes a hundred times as long as trying it, and a run that ends with a miss
/// tells only that it did. So each shot is tried several times; the run goes on from one that went
/// well, for the share that did. The mean stays what it was, with far less scatter.
/// Source: splitting, Kahn and Harris, Nat. Bur. Stand. Appl. Math. Ser. 12 (1951) 27; from memory.
namespace ahead::coach {

/// Where a part of a run broke down.
struct Breakdown {
  double share = 0;  ///< of the run
  bool foul = false;
  bool in_hand = false;  ///< the cue ball was potted or left the table
  Position left;         ///< the balls
};

/// A clearance that was played out. What did not clear broke down somewhere.
struct Run {
  double began = 0;    ///< share of the first shot's tries that went well
  double cleared = 0;  ///< product of the shares of all its shots
  std::vector<Breakdown> breakdowns;
};

/// Plays `first` and then on, `runs` times; run i draws from streams of its own.
[[nodiscard]] std::vector<Run> runs_of(const Scene& scene, const ValueField& field,
                                       const Position& position, const Call& first, int runs,
                                       std::uint64_t seed, long& simulated_shots);

}  // namespace ahead::coach
