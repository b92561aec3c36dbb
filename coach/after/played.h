#pragma once

#include <cstddef>
#include <expected>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "coach/after/aftermath.h"

/// A clearance as it was played, put together from the comparisons after its shots.
namespace ahead::coach {

/// What came of a planned shot.
struct ShotResult {
  bool potted = false;              ///< the called ball has gone
  std::optional<engine::Vec2> cue;  ///< where the cue ball was found; nothing after an in-off
  std::optional<LeaveMiss> leave;   ///< of the cue ball
  std::optional<Part> slip;         ///< of the strike, the part that was most out, if one is told
  Estimate estimate;                ///< of that part
};

/// A comparison, as far as a lesson needs it.
struct PlayedShot {
  std::size_t shot = 0;  ///< index into the shots of the plan that it was compared with
  std::string ball;      ///< that was to be potted
  ShotResult result;
  std::optional<Plan> plan;  ///< the new plan from there
};

/// A shot of one of several plans.
struct ShotOfPlan {
  std::size_t plan = 0;
  std::size_t shot = 0;
};

struct AsPlayed {
  Plan plan;  ///< the shots that were played, each of the plan of its time, then those to come
  std::vector<std::optional<ShotResult>> came;  ///< one a shot; nothing for one without comparison
  std::vector<Plan> plans;                      ///< the plans of their times
  std::vector<ShotOfPlan> meant;                ///< one a shot: where it was planned
};

/// The first comparison is with `plan`, each later one with the new plan of the one before it. The
/// index of the first that does not fit where there is one.
[[nodiscard]] std::expected<AsPlayed, std::size_t> as_played(const Plan& plan,
                                                             std::span<const PlayedShot> played);

}  // namespace ahead::coach
