#pragma once

#include <cstdint>

#include "coach/plan/value_field.h"
#include "coach/risk/chance.h"
#include "coach/risk/tries.h"

/// Whole clearances played out with the player's errors: the chance that is shown.
///
/// After each shot the next one is chosen again from where the balls really are
/// (plan/quick_choice.h). The choice is quicker and coarser than the planner's own, so the share
/// cleared is, if anything, low.
namespace ahead::coach {

/// Plays `first` and then on, `runs` times; run i uses stream i.
[[nodiscard]] Chance clearance_chance(const Scene& scene, const ValueField& field,
                                      const Position& position, const Call& first, int runs,
                                      std::uint64_t seed, long& simulated_shots);

}  // namespace ahead::coach
