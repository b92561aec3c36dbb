#include "coach/player/scatter.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ahead::coach {

double direction_sigma_rad(const Player& player, double elevation_rad) {
  constexpr double degrees = std::numbers::pi / 180;
  const double raised = std::clamp((elevation_rad - 5 * degrees) / (15 * degrees), 0.0, 1.0);
  return player.direction_rad.sigma * (1 + raised * (player.raised.factor - 1));
}

Slip drawn(const Player& player, double elevation_rad, Random& random) {
  // Each in its own statement: the order of draws is part of the answer.
  Slip slip;
  slip.direction_rad =
      player.direction_rad.bias + direction_sigma_rad(player, elevation_rad) * random.normal();
  slip.pace = player.pace.bias + player.pace.sigma * random.normal();
  slip.tip_height_m = player.tip_height_m.bias + player.tip_height_m.sigma * random.normal();
  slip.tip_side_m = player.tip_side_m.bias + player.tip_side_m.sigma * random.normal();
  slip.elevation_rad = player.elevation_rad.bias + player.elevation_rad.sigma * random.normal();
  return slip;
}

engine::Strike played(const engine::Strike& intended, const Slip& slip,
                      const engine::Table& table) {
  const double radius_m = table.cue_ball.radius_m;
  engine::Strike strike = intended;
  strike.side += slip.tip_side_m / radius_m;
  strike.height += slip.tip_height_m / radius_m;
  strike.cue_speed_mps = std::max(0.01, intended.cue_speed_mps * (1 + slip.pace));
  strike.elevation_rad =
      std::clamp(intended.elevation_rad + slip.elevation_rad, 0.0, std::numbers::pi / 2);
  strike.aim_rad += slip.direction_rad;
  if (!engine::miscues(strike, table.cue)) {
    strike.aim_rad += engine::deflection_rad(intended.side, table.cue_ball, table.cue) -
                      engine::deflection_rad(strike.side, table.cue_ball, table.cue);
  }
  return strike;
}

}  // namespace ahead::coach
