#pragma once

#include <string>

#include "coach/trial/report.h"

/// A trial as a file, `three-ahead.trial/1`. Its keys: formats/schema/trial.schema.json.
namespace ahead::formats {

/// Requires at least one policy with at least one run.
[[nodiscard]] std::string write_trial(const coach::TrialReport& report);

}  // namespace ahead::formats
