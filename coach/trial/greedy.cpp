#include "coach/trial/greedy.h"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include "coach/pots/prospect.h"
#include "coach/pots/way.h"

namespace ahead::coach {
namespace {

constexpr std::array speeds_mps{0.5, 0.7, 1.0, 1.4, 2.0};

/// The pots that look easiest are played out so often each: at first sight a ball that only just
/// reaches the pocket looks easy.
constexpr std::size_t played_out = 6;
constexpr int tries_each = 200;

std::vector<Prospect> centre_ball_pots(const Scene& scene, const Position& position) {
  const BallSet on = balls_on(scene.task, position.present);
  std::vector<Prospect> pots;
  for (int ball = 1; ball < static_cast<int>(position.at.size()); ++ball) {
    if (!has(on, ball)) continue;
    for (const Way& way : ways_of(scene, position, ball)) {
      if ((way.blockers & position.present) != 0) continue;
      for (const double speed_mps : speeds_mps) {
        auto pot = prospect_of(scene, position, way, {.cue_speed_mps = speed_mps});
        if (pot) pots.push_back(*std::move(pot));
      }
    }
  }
  return pots;
}

}  // namespace

std::optional<EasiestPot> easiest_pot(const Scene& scene, const Position& position,
                                      std::uint64_t seed, long& simulated_shots) {
  auto pots = centre_ball_pots(scene, position);
  simulated_shots += static_cast<long>(pots.size());
  std::ranges::stable_sort(pots, std::ranges::greater{}, &Prospect::pot);
  pots.resize(std::min(pots.size(), played_out));
  std::optional<EasiestPot> best;
  for (const Prospect& pot : pots) {
    const Call call = call_of(pot);
    const auto tries = tries_of(scene, position, call, tries_each, seed);
    simulated_shots += tries_each;
    const double chance = static_cast<double>(std::ranges::count_if(tries, succeeded)) / tries_each;
    if (!best || chance > best->chance) best = EasiestPot{.call = call, .chance = chance};
  }
  return best;
}

}  // namespace ahead::coach
