#pragma once

#include "coach/player/player.h"
#include "coach/random.h"
#include "engine/contact/strike.h"
#include "engine/equipment/table.h"

/// From the intended strike to the one that is played.
namespace ahead::coach {

/// How far one try falls from the intention. In the player's own units; see Player.
struct Slip {
  double direction_rad = 0;
  double pace = 0;
  double tip_height_m = 0;
  double tip_side_m = 0;
  double elevation_rad = 0;
};

/// A try of this player, drawn from `random`, for a strike with the butt raised by `elevation_rad`.
[[nodiscard]] Slip drawn(const Player& player, double elevation_rad, Random& random);

/// One-sigma error of the cue ball's direction when the butt is raised: the player's own up to
/// 5 degrees, times the raised factor from 20 degrees (assumption: linear between).
[[nodiscard]] double direction_sigma_rad(const Player& player, double elevation_rad);

/// The strike with the slip in it. The launch direction changes by `direction_rad` alone: the
/// deflection that comes with a change of side is taken out of the aim, since the direction error
/// is the net one. May miscue.
[[nodiscard]] engine::Strike played(const engine::Strike& intended, const Slip& slip,
                                    const engine::Table& table);

}  // namespace ahead::coach
