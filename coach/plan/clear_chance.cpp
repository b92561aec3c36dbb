#include "coach/plan/clear_chance.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numbers>
#include <vector>

namespace ahead::coach {
namespace {

/// By maximum likelihood over several sets of breaks, rounded (docs/planning.md, bench/odds.cpp).
constexpr PlannedAnew planned_anew{.offset = 0.80, .slope = 0.70, .of_aim = -1.00};
/// With two balls left there is little to choose after the first shot.
constexpr int little_to_choose = 2;

}  // namespace

double PlannedAnew::operator()(double share, const Player& player) const {
  if (share <= 0 || share >= 1) return share;
  constexpr double degree_rad = std::numbers::pi / 180;
  // Beyond the players that the figures come from, as for the nearest of them.
  const double aim_deg = std::clamp(player.direction_rad.sigma / degree_rad, 0.06, 0.5);
  const double log_odds =
      offset + slope * std::log(share / (1 - share)) + of_aim * std::log(aim_deg / 0.1);
  return 1 / (1 + std::exp(-log_odds));
}

Chance clear_chance(const Scene& scene, const Position& position, std::span<const Run> runs) {
  const auto count = static_cast<double>(runs.size());
  std::vector<double> cleared;
  double began = 0;
  for (const Run& run : runs) {
    cleared.push_back(run.cleared);
    began += run.began;
  }
  const double first = began / count;
  Chance chance = chance_of(cleared);
  const int to_clear = std::popcount(position.present & (scene.task.own | scene.task.black));
  if (to_clear <= little_to_choose || first == 0) return chance;
  // None of a few runs is not never: half a clearance more of one run more (Jeffreys, 1946).
  chance.value = (chance.value * count + 0.5) / (count + 1);
  for (double* part : {&chance.value, &chance.low, &chance.high}) {
    *part = first * planned_anew(std::min(1.0, *part / first), scene.player);
  }
  return chance;
}

}  // namespace ahead::coach
