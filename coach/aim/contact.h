#pragma once

#include <optional>

#include "engine/contact/strike.h"
#include "engine/equipment/table.h"

/// The strike as it arrives at the object ball: the short way from cue to object-ball direction.
///
/// The cue ball alone, by the engine's closed forms, up to the object ball; then the pair rule and
/// the bed. No cushion, no third ball: what aiming needs, in about a microsecond.
namespace ahead::coach {

struct Contact {
  double t_s = 0;
  engine::BallState cue_before;  ///< at contact
  engine::BallState cue_after;
  engine::BallState object_after;
};

/// Nothing when the cue ball does not reach the object ball.
[[nodiscard]] std::optional<Contact> first_contact(const engine::Table& table, engine::Vec2 cue,
                                                   engine::Vec2 object,
                                                   const engine::Strike& strike);

/// Distance by which the object ball, sent off so, would pass `target`, m; positive when it passes
/// with the target on its right. Along the line that it rolls on.
[[nodiscard]] double passes_by_m(const engine::Table& table, const engine::BallState& object,
                                 engine::Vec2 target);

/// Direction in which the object ball rolls in the end, rad.
[[nodiscard]] double rolling_direction_rad(const engine::Table& table,
                                           const engine::BallState& object);

}  // namespace ahead::coach
