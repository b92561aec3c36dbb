#pragma once

#include <string>

#include "coach/layout.h"
#include "coach/leaves/pot_analysis.h"

/// The analysis of one pot as a JSON document. No schema yet: the analysis still grows.
namespace ahead::formats {

[[nodiscard]] std::string write_pot_analysis(const coach::PotAnalysis& analysis,
                                             const coach::Layout& layout);

}  // namespace ahead::formats
