#pragma once

#include <string>

#include "coach/plan/plan.h"

/// Whether to try to clear or to play safe, in sentences.
namespace ahead::lesson {

/// Empty where the plan has not weighed it.
[[nodiscard]] std::string bet_words(const coach::Plan& plan);

/// The safe play by itself: "Red 2, half ball, to its left, ...".
[[nodiscard]] std::string safe_play_words(const coach::Layout& layout, const coach::SafePlay& safe);

}  // namespace ahead::lesson
