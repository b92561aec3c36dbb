#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "coach/access/access.h"
#include "coach/plan/opponent.h"
#include "coach/pots/way.h"
#include "engine/simulate/shot.h"

/// A shot played to leave the opponent nothing, when clearing is a bad bet.
///
/// At every ball on that is in sight the cue ball is sent over its whole width, soft to firm, drawn
/// and with follow, through the full engine. The lawful ones that leave the opponent least are then
/// played out with the player's errors, the closest rivals most often. A pot that may well miss,
/// and when it does leaves the opponent as little as the best of them, is a shot to nothing, and
/// goes before it. No side: it is the first thing to go wrong in a soft shot. SI; balls are indices
/// into the layout.
namespace ahead::coach {

struct SafePlay {
  int ball = 0;               ///< hit first
  std::optional<int> pocket;  ///< that it goes to when it goes as meant: a shot to nothing
  engine::Strike strike;
  Access access;
  double thickness = 0;      ///< overlap seen along the line of aim, 0 to 1
  double cut_rad = 0;        ///< between line of aim and line of centres
  bool cut_to_left = false;  ///< the object ball leaves to the left of the line of aim
  engine::Shot intended;     ///< balls as in the position, those gone left out
  // Over the tries:
  double pots = 0;      ///< share after which the visit goes on
  double foul = 0;      ///< share
  double clears = 0;    ///< mean of the opponent's chance of clearing where the visit ended
  double best_pot = 0;  ///< mean of the opponent's best direct pot after a lawful shot
  int tries = 0;
};

/// Whether the shot is lawful without a pot: a ball on first, and after it a ball to a cushion or
/// potted where the rules ask for that (all but snooker's; a ball that lay against a cushion must
/// come off it first). Potting the black early, or the cue ball, is not.
[[nodiscard]] bool lawful(const Scene& scene, const Position& position, const Played& played);

/// `ways` are those of all balls to clear, measured closely. Nothing when no ball on is in sight,
/// or the player reaches no lawful strike.
[[nodiscard]] std::optional<SafePlay> safest_play(const Scene& scene, const Position& position,
                                                  const Opponent& opponent,
                                                  std::span<const Way> ways, std::uint64_t seed);

}  // namespace ahead::coach
