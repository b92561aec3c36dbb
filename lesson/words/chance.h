#pragma once

#include <string>

#include "coach/plan/plan.h"

/// Chances in words, with the figure at hand.
namespace ahead::lesson {

/// "about 7 in 10", "about 1 in 30", "fewer than 1 in 200".
[[nodiscard]] std::string odds_words(double chance);

/// A chance that is itself a mean over tries: "about 7 in 10 (71%)", "all but certain".
[[nodiscard]] std::string average_words(double chance);

/// "71%"; "under 1%" and "over 99%" where rounding would claim certainty.
[[nodiscard]] std::string percent_words(double chance);

/// "about 7 in 10 (71%, 95% interval 68 to 74)". Without the interval when nothing was tried.
[[nodiscard]] std::string chance_words(const coach::Chance& chance);

}  // namespace ahead::lesson
