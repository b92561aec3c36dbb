#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <stop_token>
#include <string_view>

#include "coach/plan/effort.h"
#include "coach/plan/plan.h"

/// The clearance plan: which ball, pocket and strike, shot after shot, gives this player the best
/// chance of clearing.
namespace ahead::coach {

/// How far the planner is, for a person who waits.
struct Progress {
  std::string_view stage;
  double fraction = 0;  ///< of the whole, 0 to 1
};

/// A shot that is to be played first, whatever it is worth. Indices into the layout's balls and the
/// table's pockets.
struct FirstShot {
  int ball = 0;
  int pocket = 0;
  engine::Strike strike;
};

struct PlanSettings {
  std::uint64_t seed = 1;
  int threads = 0;  ///< 0: as many as the machine has. The answer does not depend on it.
  Effort effort = Effort::normal;
  /// Bounds the time instead of the effort, s, and answers with the most that there was time for:
  /// not the same every time.
  std::optional<double> seconds;
  /// The plan begins with it. Its chance is that of the whole with it; its runner-up is the shot
  /// that the planner would have chosen.
  std::optional<FirstShot> first;
  std::stop_token stop;
  std::function<void(const Progress&)> on_progress;
  /// Told of every plan on the way to the last, each with more work behind it.
  std::function<void(const Plan&)> on_plan;
};

/// Plans with quick effort first, then with more, up to the effort that was asked for. Stopped, it
/// answers within a tenth of a second with the plan that it has.
/// Nothing when there is no legal pot at all, or when it was stopped before the first plan.
/// Requires a valid layout with a ball to clear.
[[nodiscard]] std::optional<Plan> plan_clearance(const Layout& layout, const Player& player,
                                                 const PlanSettings& settings);

}  // namespace ahead::coach
