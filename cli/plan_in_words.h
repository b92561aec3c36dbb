#pragma once

#include <string>

#include "coach/plan/plan.h"

namespace ahead::cli {

/// The plan for a terminal: the whole, then two or three lines a shot.
[[nodiscard]] std::string plan_in_words(const coach::Plan& plan);

}  // namespace ahead::cli
