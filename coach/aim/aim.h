#pragma once

#include <functional>
#include <optional>

#include "coach/aim/contact.h"

/// The aim that sends the object ball through a point, for a given touch and pace.
namespace ahead::coach {

struct Aim {
  engine::Strike strike;  ///< the given one, with its aim set
  Contact contact;
};

/// Solves with the engine's own physics, so deflection, swerve and throw are allowed for: secant
/// steps on the distance by which the object ball passes the target, from the ghost ball's line.
/// Nothing when the ball cannot be sent there (cut beyond 90 degrees, or not reached).
[[nodiscard]] std::optional<Aim> aim_at(const engine::Table& table, engine::Vec2 cue,
                                        engine::Vec2 object, engine::Vec2 target,
                                        const engine::Strike& touch_and_pace);

/// The same for a target that hangs on how the ball goes off: it is asked for anew at every step,
/// and first for `target`. Starts from `near_rad`, an aim for much the same strike, if given.
using TargetOf = std::function<std::optional<engine::Vec2>(const engine::BallState& object_after)>;
[[nodiscard]] std::optional<Aim> aim_at(const engine::Table& table, engine::Vec2 cue,
                                        engine::Vec2 object, engine::Vec2 target,
                                        const TargetOf& target_of,
                                        const engine::Strike& touch_and_pace,
                                        std::optional<double> near_rad = {});

/// Where the cue ball is at contact for a pot straight along the line of centres, m.
[[nodiscard]] engine::Vec2 ghost_ball(const engine::Table& table, engine::Vec2 object,
                                      engine::Vec2 target);

}  // namespace ahead::coach
