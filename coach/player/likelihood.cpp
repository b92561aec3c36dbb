#include "coach/player/likelihood.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ahead::coach {
namespace {

/// A thing that the player never gets wrong has to have some width, or no two strikes compare.
constexpr double least_sigma = 1e-6;

double squared(double x) { return x * x; }

double over(double sigma) { return 1 / std::max(sigma, least_sigma); }

}  // namespace

CameOut came_out(const engine::Strike& strike, const engine::Table& table) {
  return {
      .launch_rad = strike.aim_rad + engine::deflection_rad(strike.side, table.cue_ball, table.cue),
      .cue_speed_mps = strike.cue_speed_mps,
      .height = strike.height,
      .side = strike.side,
      .elevation_rad = strike.elevation_rad};
}

Likelihood::Likelihood(const Player& player, const engine::Strike& intended, double carried,
                       const engine::Table& table)
    : mean_(came_out(intended, table)) {
  const Slip sigma = sigmas(player, {.elevation_rad = intended.elevation_rad, .carried = carried});
  const double radius_m = table.cue_ball.radius_m;
  mean_.launch_rad += player.direction_rad.bias;
  mean_.cue_speed_mps *= 1 + player.pace.bias;
  mean_.height += player.tip_height_m.bias / radius_m;
  mean_.side += player.tip_side_m.bias / radius_m;
  mean_.elevation_rad += player.elevation_rad.bias;
  per_sigma_ = {.launch_rad = over(sigma.direction_rad),
                .cue_speed_mps = over(sigma.pace * intended.cue_speed_mps),
                .height = over(sigma.tip_height_m / radius_m),
                .side = over(sigma.tip_side_m / radius_m),
                .elevation_rad = over(sigma.elevation_rad)};
  height_ = per_sigma_.launch_rad * per_sigma_.cue_speed_mps * per_sigma_.height * per_sigma_.side;
  level_ = 0.5 * std::erfc(mean_.elevation_rad * per_sigma_.elevation_rad / std::numbers::sqrt2);
}

double Likelihood::operator()(const CameOut& strike) const {
  const double turn = std::remainder(strike.launch_rad - mean_.launch_rad, 2 * std::numbers::pi);
  const double off =
      squared(turn * per_sigma_.launch_rad) +
      squared((strike.cue_speed_mps - mean_.cue_speed_mps) * per_sigma_.cue_speed_mps) +
      squared((strike.height - mean_.height) * per_sigma_.height) +
      squared((strike.side - mean_.side) * per_sigma_.side);
  constexpr double far = 100;
  if (off > far) return 0;
  if (strike.elevation_rad <= 0) return height_ * level_ * std::exp(-0.5 * off);
  const double raised =
      squared((strike.elevation_rad - mean_.elevation_rad) * per_sigma_.elevation_rad);
  constexpr double to_density = 0.3989422804014327;  // 1 / sqrt(2 pi)
  return height_ * to_density * per_sigma_.elevation_rad * std::exp(-0.5 * (off + raised));
}

}  // namespace ahead::coach
