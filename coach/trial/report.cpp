#include "coach/trial/report.h"

#include <algorithm>

namespace ahead::coach {

void add(PolicyReport& report, const std::string& layout_name, const LayoutTrial& trial) {
  add(report.tally, trial);
  const auto cleared =
      std::ranges::count(trial.clearances, Outcome::cleared, &PlayedClearance::outcome);
  report.layouts.push_back({.name = layout_name,
                            .colour = trial.start.colour,
                            .runs = static_cast<int>(trial.clearances.size()),
                            .cleared = static_cast<int>(cleared),
                            .stated = trial.stated});
}

Ratio ratio_of(const Tally& one, const Tally& other) {
  return ratio_of(Count{.successes = one.cleared, .trials = one.runs},
                  Count{.successes = other.cleared, .trials = other.runs});
}

}  // namespace ahead::coach
