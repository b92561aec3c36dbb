#include "coach/player/scatter.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ahead::coach {

double raised_factor(const Player& player, double elevation_rad) {
  constexpr double degrees = std::numbers::pi / 180;
  const double raised = std::clamp((elevation_rad - 5 * degrees) / (15 * degrees), 0.0, 1.0);
  return 1 + raised * (player.raised.factor - 1);
}

Slip sigmas(const Player& player, const Handicapped& strike) {
  return {.direction_rad = player.direction_rad.sigma * strike.carried *
                           raised_factor(player, strike.elevation_rad),
          .pace = player.pace.sigma,
          .tip_height_m = player.tip_height_m.sigma * strike.carried,
          .tip_side_m = player.tip_side_m.sigma * strike.carried,
          .elevation_rad = player.elevation_rad.sigma};
}

Slip slip_of(const Player& player, const Handicapped& strike, const Normals& off) {
  const Slip sigma = sigmas(player, strike);
  return {.direction_rad = player.direction_rad.bias + sigma.direction_rad * off[0],
          .pace = player.pace.bias + sigma.pace * off[1],
          .tip_height_m = player.tip_height_m.bias + sigma.tip_height_m * off[2],
          .tip_side_m = player.tip_side_m.bias + sigma.tip_side_m * off[3],
          .elevation_rad = player.elevation_rad.bias + sigma.elevation_rad * off[4]};
}

Slip drawn(const Player& player, const Handicapped& strike, Random& random) {
  Normals off{};
  for (double& one : off) one = random.normal();
  return slip_of(player, strike, off);
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
