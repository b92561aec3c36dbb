#pragma once

#include <span>

#include "coach/plan/play_out.h"
#include "coach/risk/chance.h"

/// The chance of clearing that is shown: what played-out clearances tell, put right by what
/// planning anew after every shot made of others.
///
/// The runs choose more quickly and coarsely than the planner. What that costs hangs on the player:
/// finer choices gain most for one whose cue ball goes where it was meant to (docs/planning.md).
namespace ahead::coach {

/// What planning anew makes of the odds that runs give the rest of a clearance, on a logarithmic
/// scale: offset + slope x log odds + of_aim x log(aim / 0.1 degrees).
/// Source of the form: Platt, Advances in Large Margin Classifiers (1999), from memory.
struct PlannedAnew {
  double offset = 0;
  double slope = 1;
  double of_aim = 0;  ///< the aim is the sigma of the player's direction, 0.06 to 0.5 degrees

  /// Of the share of runs that finished the rest. None stays none, and all stays all.
  [[nodiscard]] double operator()(double share, const Player& player) const;
};

/// The chance of clearing from `position`, whose runs these are, for a player who plans anew. The
/// first shot counts as often as it went well; the rest is put right. With two balls to clear or
/// one there is little to plan, and it is the share that cleared. Requires a run.
[[nodiscard]] Chance clear_chance(const Scene& scene, const Position& position,
                                  std::span<const Run> runs);

}  // namespace ahead::coach
