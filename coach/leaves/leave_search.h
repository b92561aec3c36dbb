#pragma once

#include <cstdint>
#include <vector>

#include "coach/leaves/wanted.h"
#include "coach/pots/climb.h"

/// The strikes that pot a ball and leave the cue ball where it is wanted, by the chance that this
/// player does both.
///
/// A grid over side, height and pace, each aimed so that the ball drops, finds the families of
/// paths. The most promising are played with the player's errors, and every try tells about all the
/// strikes near it (risk/shared_tries.h): so from the best of different families a climb changes
/// side, height and pace without playing each change, as far as the tries tell; then it plays where
/// it has come to, and goes on. The climbers that are behind fall out. The figures that are
/// returned come from tries that chose nothing.
namespace ahead::coach {

/// Budgets, in tries. The search is reproducible by them and the seed, on any number of threads.
struct LeaveCare {
  int first_rivals = 64;  ///< of the grid, that are played
  int first_tries = 32;   ///< each
  ClimbCare climb{.climbers = 6, .rounds = 9, .tries = 200};
  int last_rivals = 6;
  int last_tries = 600;
};

struct LeaveStrike {
  Prospect prospect;
  /// Share of tries that potted, each weighed by what its leave is worth: its own, and those of the
  /// other strikes that are returned, as far as they tell about it.
  double chance = 0;
  int tries = 0;  ///< its own
};

/// A plainer strike comes first when its chance is at most this much less (assumption).
inline constexpr double price_of_plainness = 0.02;

/// Best first, but for a plainer strike that is nearly as good (less side, less pace, nearer the
/// middle of the ball); empty when no strike pots the ball.
[[nodiscard]] std::vector<LeaveStrike> search_leave(const Scene& scene, const Position& position,
                                                    const Way& way, const Worth& worth,
                                                    std::uint64_t seed, const LeaveCare& care = {});

/// The grid's touches.
[[nodiscard]] std::vector<Touch> leave_touches();

}  // namespace ahead::coach
