#pragma once

#include "coach/access/behind.h"
#include "coach/player/player.h"

/// Where a bridge can stand on the cue's line, and how high it holds the cue.
///
/// A hand needs free ground: no ball under it, no pocket, on the cloth, over the cushion or on the
/// rail. Its fingers spread to the side of the hand (a left hand's to the left).
/// Source: common practice, no source: a hand of 120 x 100 mm, on its fingertips 70 x 80 mm, heads
/// of rests at 35 to 50 mm and 90 to 110 mm; heights of the hand from the player.
namespace ahead::coach {

/// What the cue lies in.
enum class Support { open, closed, raised, cushion, rail, rest, spider };

enum class Posture { flat, fingertips, rest, spider };

struct BridgePlace {
  bool free = false;
  int ball = 0;  ///< that stands there when it is not free; 0 for a pocket or the table's edge
  Support support{};
  double low_m = 0;  ///< heights of the cue's underside over the bed that it can hold
  double high_m = 0;
};

/// The bridge `distance_m` behind the cue ball under a line `right_m` to the right of its centre,
/// for a player who grips with `hand`.
[[nodiscard]] BridgePlace bridge_place(const engine::Table& table, const Bridging& bridging,
                                       const Behind& behind, double right_m, double distance_m,
                                       Posture posture, Hand hand);

}  // namespace ahead::coach
