#pragma once

#include <cstdint>
#include <optional>

#include "coach/plan/value_field.h"
#include "coach/risk/tries.h"

/// The shot that the planner plays from where the balls are now, and nothing else.
///
/// A plan also plays out the figures that it shows; a player in mid-visit only needs the next shot.
namespace ahead::coach {

struct NextCall {
  Call call;
  double worth = 0;  ///< the chance of clearing from here that the value field holds it for
};

/// Nothing when no ball that is on can be potted. Requires a field in which no ball lies elsewhere
/// than in `position`, the cue ball apart.
[[nodiscard]] std::optional<NextCall> next_call(const Scene& scene, const ValueField& field,
                                                const Position& position, std::uint64_t seed,
                                                long& simulated_shots);

}  // namespace ahead::coach
