#pragma once

#include <string>

#include <nlohmann/json_fwd.hpp>

#include "coach/layout.h"
#include "coach/leaves/pot_analysis.h"

/// The analysis of one pot as a JSON document. No schema yet: the analysis still grows.
namespace ahead::formats {

[[nodiscard]] std::string write_pot_analysis(const coach::PotAnalysis& analysis,
                                             const coach::Layout& layout);

/// What a strike does for a wanted leave. Private to this room.
[[nodiscard]] nlohmann::ordered_json json_of(const coach::LeaveFacts& leave);

}  // namespace ahead::formats
