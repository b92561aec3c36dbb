#pragma once

#include <cstdint>
#include <vector>

#include "coach/access/access.h"
#include "coach/pots/course.h"
#include "coach/risk/chance.h"
#include "coach/scene.h"

/// Pots that are not direct, from where the cue ball lies: plants and sets, cannons, balls played
/// off another, doubles.
///
/// Found by playing: at every ball that is on, the cue ball is sent over its whole width, stun and
/// follow, at two paces, through the full engine. What dropped, by which contacts, names the shot;
/// neighbouring directions with the same story are one way, and its edges are then narrowed down.
/// So whatever is stated has been seen to go by the true jaws and cushions, throw included. Ways
/// narrower than the scan's step are missed: they are narrower than a good player's error.
/// Strikes that the player can make, without side and without a cushion before the first ball. SI.
namespace ahead::coach {

struct OtherWay {
  int ball = 0;
  int pocket = 0;
  Indirect how;
  double from_rad = 0;  ///< directions of the cue that pot it, from_rad < to_rad
  double to_rad = 0;
  engine::Strike strike;  ///< through their middle
  Access access;          ///< how the player makes it
  Chance pot;             ///< of tries with the player's errors: it drops, and the cue ball stays
};

/// The ways to pot any ball of `on` when any ball of `on` may be hit first; for each ball, pocket
/// and story the widest, where the player has some chance. `scene` gives table and player.
[[nodiscard]] std::vector<OtherWay> other_ways(const Scene& scene, const Position& position,
                                               BallSet on, std::uint64_t seed);

}  // namespace ahead::coach
