#pragma once

#include <cstdint>
#include <vector>

#include "coach/plan/effort.h"
#include "coach/plan/value_field.h"
#include "coach/plan/weighed.h"

/// The shots worth playing from a position, best first.
///
/// Every ball on, pocket and touch of a fine set (or of the field's hints) is aimed and weighed to
/// first order; the best few are played out with the player's errors against the same draws, climb
/// to what is better near them, and the rivals that stay close are played more often (race.h). A
/// try is worth what the value field gives its leave.
namespace ahead::coach {

/// Rivals in falling order of worth; at most a few a way. Empty when nothing legal can be potted.
[[nodiscard]] std::vector<Weighed> weigh_shots(
    const Scene& scene, const ValueField& field, const Position& position, std::uint64_t seed,
    long& simulated_shots, const ShotCare& care = budget_of(Effort::normal).care);

/// What a strike is worth at first sight: its pot chance times the mean of the field's value over
/// the cue ball's likely run.
[[nodiscard]] double first_worth(const Scene& scene, const ValueField& field,
                                 const Prospect& prospect);

}  // namespace ahead::coach
