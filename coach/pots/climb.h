#pragma once

#include <functional>
#include <span>
#include <vector>

#include "coach/pots/prospect.h"
#include "coach/risk/shared_tries.h"

/// From strikes to better ones near them, by tries that tell about all of their neighbours.
namespace ahead::coach {

/// What a climb knows of a strike's pot.
struct Slope {
  const Way* way = nullptr;      ///< nothing: no strike can be aimed afresh, and none climbs
  SharedTries* tries = nullptr;  ///< of this ball and pocket
};

/// One round: plays the strike `tries` times more and goes on from it in side, height and pace, by
/// ever smaller steps and without playing, as far as the tries tell. With the same side when that
/// is to be `kept`.
void climb(Prospect& strike, const Slope& slope, const Scene& scene, const Position& position,
           int tries, bool kept_side);

struct ClimbCare {
  int climbers = 0;  ///< after each round a quarter falls out, the last two never
  int rounds = 0;
  int tries = 0;  ///< of each climber in each round
};

/// Where the best of different families climb to, the best last. `ranked` are strikes, best first.
///
/// Source: successive halving, Jamieson and Talwalkar (2016), AISTATS, 240; here by quarters.
[[nodiscard]] std::vector<Prospect> climb_all(std::span<const Prospect> ranked,
                                              const std::function<Slope(const Prospect&)>& slope_of,
                                              const Scene& scene, const Position& position,
                                              const ClimbCare& care);

}  // namespace ahead::coach
