#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coach/after/strike_posterior.h"
#include "coach/plan/plan_clearance.h"

/// A shot of a plan against what happened: where the balls ended, what strike was probably made,
/// and the new plan from here.
namespace ahead::coach {

/// Where a ball was meant to end and where it was found; nothing stands for gone.
struct EndPair {
  std::string id;
  std::optional<engine::Vec2> meant;
  std::optional<engine::Vec2> found;
};

/// How the cue ball's real stop lies from the meant one, along the last run of its meant path.
struct LeaveMiss {
  double along_m = 0;   ///< positive: too far
  double across_m = 0;  ///< positive: to the left of that run
};

/// The pot that the plan meant to play next.
struct FollowingPot {
  std::string id;
  int pocket = 0;
  double meant = 0;           ///< its chance in the plan
  std::optional<Chance> now;  ///< from where the balls are; nothing when it is not on any more
};

struct Aftermath {
  std::size_t shot = 0;  ///< index into the plan's shots
  Layout actual;
  Player player;
  std::vector<EndPair> ends;  ///< of the balls that were meant to move or did; the cue ball first
  bool potted = false;        ///< the called ball has gone
  std::optional<LeaveMiss> leave;
  StrikePosterior strike;
  std::optional<engine::Shot> likely;  ///< the likeliest strike, played; when it is explained
  std::optional<FollowingPot> next;
  std::optional<Plan> plan;  ///< from here; nothing when no ball that is on can be potted
};

/// The first ball of `actual` that was not on the table before the shot, as an index.
[[nodiscard]] std::optional<std::size_t> newcomer(const PlannedShot& shot, const Layout& actual);

/// Requires shot < plan.shots.size() the same table, and no newcomer. `settings` serve for the new
/// plan.
[[nodiscard]] Aftermath aftermath_of(const Plan& plan, std::size_t shot, const Layout& actual,
                                     const Player& player, const PlanSettings& settings);

}  // namespace ahead::coach
