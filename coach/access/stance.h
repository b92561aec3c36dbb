#pragma once

#include "coach/access/behind.h"
#include "coach/player/player.h"

/// Where the body can be: a foot on the floor, the hand at the bridge, the chest beside the cue.
///
/// The hips stand in a strip 0.6 to 1.5 m behind the cue ball, from the line of the cue out to the
/// side of the bridge hand (a right-hander's body is left of the line), outside the table. From
/// there the hand reaches over the table's edge as far as the player can, and the body leans over
/// sideways up to 0.65 of that.
/// Source: common practice, no source. Walls, furniture and other people are not known.
namespace ahead::coach {

/// Least reach past the table's outer edge, m, with which this hand's player bridges at `bridge`
/// (seen), or one that is no more than `enough_m`; infinite when there is nowhere to stand.
[[nodiscard]] double reach_needed_m(const engine::Table& table, const AimFrame& frame,
                                    engine::Vec2 bridge, Hand hand, double enough_m);

/// How far inside the table's outer edge a place lies, m, at its nearest; 0 outside.
[[nodiscard]] double inside_edge_m(const engine::Table& table, engine::Vec2 at);

}  // namespace ahead::coach
