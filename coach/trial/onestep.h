#pragma once

#include <cstdint>
#include <optional>

#include "coach/plan/value_field.h"
#include "coach/risk/tries.h"

/// The player who thinks one ball ahead: the pot and the leave for the next ball, and no order.
///
/// Chooses among the strikes that the planner has, by the chance of this pot and the best one after
/// it. A yardstick for the planner: what it loses to the plan is what looking further is worth.
namespace ahead::coach {

struct OneStep {
  Call call;
  double two_balls = 0;  ///< chance of this pot and of the best one after it
};

/// Nothing when no ball that is on can be potted. Requires a field in which no ball lies elsewhere
/// than in `position`, the cue ball apart.
[[nodiscard]] std::optional<OneStep> best_for_next_ball(const Scene& scene, const ValueField& field,
                                                        const Position& position,
                                                        std::uint64_t seed, long& simulated_shots);

}  // namespace ahead::coach
