#pragma once

#include <cstdint>
#include <functional>
#include <string_view>

#include "coach/plan/plan.h"

/// The clearance plan: which ball, pocket and strike, shot after shot, gives this player the best
/// chance of clearing.
namespace ahead::coach {

/// How far the planner is, for a person who waits.
struct Progress {
  std::string_view stage;
  double fraction = 0;  ///< of the whole, 0 to 1
};

struct PlanSettings {
  std::uint64_t seed = 1;
  int threads = 0;  ///< 0: as many as the machine has. The answer does not depend on it.
  std::function<void(const Progress&)> on_progress;
};

/// Nothing when there is no legal pot at all. Requires a valid layout with a ball to clear.
[[nodiscard]] std::optional<Plan> plan_clearance(const Layout& layout, const Player& player,
                                                 const PlanSettings& settings);

}  // namespace ahead::coach
