#pragma once

#include <string>

#include "coach/trial/report.h"

/// A trial for a terminal.
namespace ahead::lesson {

/// The comparison: a line a policy, how often it cleared and what ended its visits, and how many
/// times as often the first one cleared as each of the others.
[[nodiscard]] std::string comparison_words(const coach::TrialReport& report);

/// Stated against actual chances of one policy, in tenths.
[[nodiscard]] std::string calibration_words(const coach::Tally& tally);

}  // namespace ahead::lesson
