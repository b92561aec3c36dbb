#pragma once

#include <string>

namespace ahead::cli {

/// One line of caution about a raised cue, empty below 15 degrees. Above 30 the cloth is at risk.
[[nodiscard]] std::string raised_cue_caution(double elevation_rad);

}  // namespace ahead::cli
