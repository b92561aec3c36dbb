#include "coach/pots/plain_strike.h"

#include <cmath>

namespace ahead::coach {

double effort(const engine::Strike& strike) {
  return strike.cue_speed_mps + 3 * std::abs(strike.side) + std::abs(strike.height) +
         2 * strike.elevation_rad;
}

std::optional<Prospect> without_side(const Scene& scene, const Position& position, const Way& way,
                                     const engine::Strike& strike) {
  return prospect_of(scene, position, way,
                     {.height = strike.height, .cue_speed_mps = strike.cue_speed_mps});
}

}  // namespace ahead::coach
