#include "coach/pots/climb.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <optional>
#include <utility>
#include <vector>

#include <tbb/parallel_for.h>

namespace ahead::coach {
namespace {

/// One thing changed at a time, or height against pace, by `step` sigmas of the player's errors:
/// what the errors blur, a smaller step cannot tell apart.
std::vector<Touch> around(const Scene& scene, const engine::Strike& strike, double step,
                          bool kept_side) {
  const Player& player = scene.player;
  const double radius_m = scene.field.table().cue_ball.radius_m;
  std::vector<Touch> touches;
  for (const double change : {step, -step}) {
    const double side = strike.side + change * player.tip_side_m.sigma / radius_m;
    const double height = strike.height + change * player.tip_height_m.sigma / radius_m;
    const double more = strike.cue_speed_mps * (1 + change * player.pace.sigma);
    const double less = strike.cue_speed_mps * (1 - change * player.pace.sigma);
    touches.push_back({strike.side, strike.height, more});
    touches.push_back({strike.side, height, strike.cue_speed_mps});
    touches.push_back({strike.side, height, less});
    if (!kept_side) touches.push_back({side, strike.height, strike.cue_speed_mps});
  }
  return touches;
}

/// Climbs from them would come together.
bool same_family(const Prospect& a, const Prospect& b) {
  return a.ball == b.ball && a.pocket == b.pocket &&
         std::abs(a.strike.side - b.strike.side) < 0.1 &&
         std::abs(a.strike.height - b.strike.height) < 0.15 &&
         std::abs(std::log(a.strike.cue_speed_mps / b.strike.cue_speed_mps)) < 0.3;
}

}  // namespace

void climb(Prospect& strike, const Slope& slope, const Scene& scene, const Position& position,
           int tries, bool kept_side) {
  SharedTries& shared = *slope.tries;
  shared.play(call_of(strike), tries);
  SharedTries::Estimate at = shared.estimate(call_of(strike));
  // Further off, the tries tell too little and a lucky few decide.
  const double enough = 0.6 * at.effective;
  double step = 1;
  while (step > 0.2) {
    const std::vector<Touch> touches = around(scene, strike.strike, step, kept_side);
    std::vector<std::optional<Prospect>> probes(touches.size());
    std::vector<SharedTries::Estimate> estimates(touches.size());
    tbb::parallel_for(std::size_t{0}, touches.size(), [&](std::size_t i) {
      probes[i] = prospect_of(scene, position, *slope.way, touches[i]);
      if (probes[i]) estimates[i] = shared.estimate(call_of(*probes[i]));
    });
    const double before = at.mean;
    for (std::size_t i = 0; i < probes.size(); ++i) {
      if (!probes[i] || estimates[i].effective < enough || estimates[i].mean <= at.mean) continue;
      at = estimates[i];
      strike = *std::move(probes[i]);
    }
    if (at.mean <= before) step *= 0.5;
  }
}

std::vector<Prospect> climb_all(std::span<const Prospect> ranked,
                                const std::function<Slope(const Prospect&)>& slope_of,
                                const Scene& scene, const Position& position,
                                const ClimbCare& care) {
  struct Climber {
    Prospect strike;
    Slope slope;
    double height = 0;
  };
  std::vector<Climber> climbers;
  for (const Prospect& one : ranked) {
    if (std::ssize(climbers) >= care.climbers) break;
    const Slope slope = slope_of(one);
    const bool known = std::ranges::any_of(
        climbers, [&](const Climber& climber) { return same_family(climber.strike, one); });
    if (slope.way != nullptr && !known) climbers.push_back({.strike = one, .slope = slope});
  }
  constexpr std::size_t last = 2;
  std::vector<Prospect> reached;
  for (int round = 0; round < care.rounds; ++round) {
    for (Climber& one : climbers) climb(one.strike, one.slope, scene, position, care.tries, false);
    for (Climber& one : climbers) one.height = one.slope.tries->estimate(call_of(one.strike)).mean;
    std::ranges::stable_sort(climbers, std::ranges::greater{}, &Climber::height);
    const std::size_t stay = std::max(last, climbers.size() * 3 / 4);
    for (; climbers.size() > stay; climbers.pop_back()) reached.push_back(climbers.back().strike);
  }
  for (; !climbers.empty(); climbers.pop_back()) reached.push_back(climbers.back().strike);
  return reached;
}

}  // namespace ahead::coach
