#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "coach/trial/ratio.h"
#include "coach/trial/trial.h"

/// What a trial answers: how often each policy cleared, and how.
namespace ahead::coach {

struct LayoutRow {
  std::string name;
  ToPlay colour{};
  int runs = 0;
  int cleared = 0;
  std::optional<Chance> stated;  ///< as LayoutTrial::stated
};

struct PolicyReport {
  Policy policy{};
  Tally tally;
  std::vector<LayoutRow> layouts;
};

struct TrialReport {
  Player player;
  std::uint64_t seed = 1;
  int runs = 0;                        ///< of each layout
  std::vector<PolicyReport> policies;  ///< the first is the one that the others are held against
};

void add(PolicyReport& report, const std::string& layout_name, const LayoutTrial& trial);

/// How many times as often `one` cleared as `other`. Requires at least one run of each.
[[nodiscard]] Ratio ratio_of(const Tally& one, const Tally& other);

}  // namespace ahead::coach
