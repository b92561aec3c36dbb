#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "coach/trial/calibration.h"
#include "coach/trial/clearance.h"

/// Many clearances played by one policy, and what they add up to.
namespace ahead::coach {

struct TrialSettings {
  int runs = 20;  ///< of each layout
  std::uint64_t seed = 1;
  int threads = 0;  ///< 0: as many as the machine has. The answer does not depend on it.
};

/// One layout played `runs` times.
struct LayoutTrial {
  TrialStart start;
  std::optional<Chance> stated;  ///< `plan` only: the chance of clearing that a plan would state
  std::vector<PlayedClearance> clearances;
};

/// Requires a valid layout with a ball to clear, and at least one run.
[[nodiscard]] LayoutTrial play_layout(const Layout& layout, const Player& player, Policy policy,
                                      const TrialSettings& settings);

/// What clearances add up to.
struct Tally {
  int runs = 0;
  int cleared = 0;
  int shots = 0;
  std::array<int, outcome_count> outcomes{};
  std::vector<int> ended_with;  ///< [n]: visits that ended with n balls still to clear
  std::vector<Foretold> pots;   ///< each shot: the stated chance of its pot
  /// Each run of `plan`: the chance of clearing that the plan stated.
  std::vector<Foretold> clearances;
  /// Each shot of `plan`: the chance of clearing that the value field held it for.
  std::vector<Foretold> worths;
  long simulated_shots = 0;

  friend bool operator==(const Tally&, const Tally&) = default;
};

void add(Tally& tally, const LayoutTrial& trial);

}  // namespace ahead::coach
