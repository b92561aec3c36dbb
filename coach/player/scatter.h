#pragma once

#include "coach/player/player.h"
#include "coach/random.h"
#include "coach/spread.h"
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

/// What a strike's circumstances do to the errors.
struct Handicapped {
  double elevation_rad = 0;
  double carried = 1;  ///< factor of the way in which the cue is carried; see Access
};

/// The player's sigmas then: direction and tip times `carried`, and the direction also times
/// raised_factor().
[[nodiscard]] Slip sigmas(const Player& player, const Handicapped& strike);

/// The slip of this player with the errors `off`: direction, pace, height and side of the tip,
/// elevation, each in sigmas about its bias.
[[nodiscard]] Slip slip_of(const Player& player, const Handicapped& strike, const Normals& off);

/// A try of this player, drawn from `random`.
[[nodiscard]] Slip drawn(const Player& player, const Handicapped& strike, Random& random);

/// On the direction when the butt is raised: 1 up to 5 degrees, the player's factor from
/// 20 degrees (assumption: linear between).
[[nodiscard]] double raised_factor(const Player& player, double elevation_rad);

/// The strike with the slip in it. The launch direction changes by `direction_rad` alone: the
/// deflection that comes with a change of side is taken out of the aim, since the direction error
/// is the net one. May miscue.
[[nodiscard]] engine::Strike played(const engine::Strike& intended, const Slip& slip,
                                    const engine::Table& table);

}  // namespace ahead::coach
