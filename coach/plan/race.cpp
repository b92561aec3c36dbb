#include "coach/plan/race.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

#include "coach/pots/plain_strike.h"

namespace ahead::coach {
namespace {

/// Side that the player's own errors blur. A climb picks it up by the way, and the plain strike is
/// to have its chance.
bool has_trace_of_side(const Scene& scene, const engine::Strike& strike) {
  const double sigma = scene.player.tip_side_m.sigma / scene.field.table().cue_ball.radius_m;
  return strike.side != 0 && std::abs(strike.side) < 2 * sigma;
}

}  // namespace

double worth_of(const Scene& scene, const ValueField& field, const Try& one) {
  if (!succeeded(one)) return 0;
  if (one.verdict == Verdict::cleared) return 1;
  return field.value_of(scene, one.leaves);
}

SharedTries& Race::tries_at(const Prospect& prospect) {
  const auto value = [this](const Try& one) { return worth_of(scene_, field_, one); };
  return tries_.try_emplace({prospect.ball, prospect.pocket}, scene_, position_, value, seed_)
      .first->second;
}

void Race::rank(std::vector<Weighed>& rivals, std::size_t first) {
  for (std::size_t i = 0; i < first; ++i) {
    const Prospect& prospect = rivals[i].prospect;
    rivals[i].worth = tries_at(prospect).estimate(call_of(prospect)).mean;
  }
  std::stable_sort(rivals.begin(), rivals.begin() + static_cast<std::ptrdiff_t>(first),
                   [](const Weighed& a, const Weighed& b) { return a.worth > b.worth; });
}

void Race::run(std::vector<Weighed>& rivals, const Round& round) {
  const std::size_t first = std::min(round.rivals, rivals.size());
  for (std::size_t i = 0; i < first; ++i) {
    tries_at(rivals[i].prospect).play(call_of(rivals[i].prospect), round.tries);
    rivals[i].tries = round.tries;
  }
  rank(rivals, first);
}

void Race::climb(std::vector<Weighed>& rivals, const std::vector<Way>& ways,
                 const ClimbCare& care) {
  std::vector<Prospect> ranked;
  for (const Weighed& rival : rivals) ranked.push_back(rival.prospect);
  const auto slope_of = [&](const Prospect& prospect) -> Slope {
    const auto way = std::ranges::find_if(ways, [&](const Way& one) {
      return one.ball == prospect.ball && one.pocket == prospect.pocket;
    });
    return {.way = way == ways.end() ? nullptr : &*way, .tries = &tries_at(prospect)};
  };
  for (Prospect& one : climb_all(ranked, slope_of, scene_, position_, care)) {
    if (has_trace_of_side(scene_, one.strike)) {
      auto plain = without_side(scene_, position_, *slope_of(one).way, one.strike);
      if (plain) rivals.push_back({.prospect = *std::move(plain), .tries = care.tries});
    }
    rivals.push_back({.prospect = std::move(one), .tries = care.tries});
  }
  rank(rivals, rivals.size());
}

long Race::simulated_shots() const {
  std::uint64_t count = 0;
  for (const auto& [pot, tries] : tries_) count += tries.count();
  return static_cast<long>(count);
}

}  // namespace ahead::coach
