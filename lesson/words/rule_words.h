#pragma once

#include <string>
#include <vector>

#include "coach/read/reading.h"

/// What can be hit first, what hides it, and what the chosen rules say about that.
namespace ahead::lesson {

[[nodiscard]] std::vector<std::string> rule_words(const coach::Reading& reading);

}  // namespace ahead::lesson
