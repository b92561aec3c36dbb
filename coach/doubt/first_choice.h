#pragma once

#include <cstdint>
#include <optional>

#include "coach/plan/plan.h"

/// Does the plan's first choice hang on where the balls were measured to be?
///
/// The layout is drawn anew a few times within its measurement error, and the first shot is chosen
/// again on each. A choice that changes often is worth a second look at the table.
namespace ahead::coach {

struct Steadiness {
  int redraws = 0;
  int kept = 0;        ///< redraws on which the same ball and pocket was chosen
  int close = 0;       ///< others on which it was worth about as much as what was chosen
  double sigma_m = 0;  ///< the largest error drawn from
  /// Of the cue ball, the planned ball and the one chosen instead: whose move alone changed the
  /// choice most often. An index into the layout's balls; nothing when none did so twice.
  std::optional<int> hangs_on;
};

/// Whether the choice changed, for something clearly better, in a third of the redraws or more.
[[nodiscard]] bool is_shaky(const Steadiness& steadiness);

/// A ball whose layout states no error is drawn with `assumed_sigma_m`. Requires a
/// plan with a shot.
[[nodiscard]] Steadiness steadiness_of(const Plan& plan, double assumed_sigma_m, std::uint64_t seed,
                                       int threads);

}  // namespace ahead::coach
