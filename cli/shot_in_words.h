#pragma once

#include <string>

#include "coach/layout.h"
#include "engine/simulate/shot.h"

namespace ahead::cli {

/// What happened, a line an event in order of time, then where each ball ended. Millimetres.
/// `shot` was simulated from `layout`.
[[nodiscard]] std::string shot_in_words(const engine::Shot& shot, const coach::Layout& layout);

}  // namespace ahead::cli
