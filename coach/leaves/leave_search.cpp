#include "coach/leaves/leave_search.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <optional>
#include <utility>

#include <tbb/parallel_for.h>

#include "coach/risk/shared_tries.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

constexpr std::array heights{-0.44, -0.34, -0.24, -0.14, -0.05, 0.05, 0.15, 0.28, 0.40};
constexpr std::array sides{0.0, -0.18, 0.18, -0.36, 0.36};
constexpr std::array speeds_mps{0.4, 0.52, 0.66, 0.82, 1.0, 1.25, 1.55, 1.9, 2.3, 2.8, 3.4};

Touch touch_of(const engine::Strike& strike) {
  return {.side = strike.side, .height = strike.height, .cue_speed_mps = strike.cue_speed_mps};
}

/// For a first ranking without errors: places along the likely run, with some pull from outside.
double promise(const Prospect& prospect, const Worth& worth) {
  double sum = 0;
  for (const double share : {-1.0, -0.4, 0.0, 0.4, 1.0}) {
    const Vec2 at = prospect.leaves.at[0] + share * prospect.drift;
    const double reach_m = 0.03 + 0.5 * engine::norm(prospect.drift);
    const double off = worth.off_m(at) / reach_m;
    sum += off > 0 ? 0.5 / (1 + off * off) : worth(at);
  }
  return prospect.pot * sum / 5;
}

void best_first(std::vector<LeaveStrike>& strikes) {
  std::ranges::stable_sort(strikes, std::ranges::greater{}, &LeaveStrike::chance);
}

/// Rivals of one search, and the tries that they share.
class Search {
 public:
  Search(const Scene& scene, const Position& position, const Way& way, const Worth& worth,
         std::uint64_t seed)
      : scene_(scene),
        position_(position),
        way_(way),
        worth_(worth),
        tries_(
            scene, position, [&worth](const Try& one) { return worth(one.leaves.at[0]); }, seed) {}

  /// Of each touch, if there is one.
  [[nodiscard]] std::vector<std::optional<Prospect>> prospects_of(
      const std::vector<Touch>& touches) const {
    std::vector<std::optional<Prospect>> found(touches.size());
    tbb::parallel_for(std::size_t{0}, touches.size(), [&](std::size_t i) {
      found[i] = prospect_of(scene_, position_, way_, touches[i]);
    });
    return found;
  }

  /// The best of the grid, played.
  [[nodiscard]] std::vector<LeaveStrike> first_rivals(const LeaveCare& care) {
    std::vector<LeaveStrike> rivals;
    for (auto& one : prospects_of(leave_touches())) {
      if (!one) continue;
      const double first = promise(*one, worth_);
      rivals.push_back({.prospect = *std::move(one), .chance = first});
    }
    best_first(rivals);
    rivals.resize(std::min(rivals.size(), static_cast<std::size_t>(care.first_rivals)));
    play(rivals, care.first_tries);
    return rivals;
  }

  /// Each of them, and ranks them.
  void play(std::vector<LeaveStrike>& rivals, int tries) {
    for (const LeaveStrike& rival : rivals) tries_.play(call_of(rival.prospect), tries);
    rank(rivals);
  }

  /// By what all the tries so far say.
  void rank(std::vector<LeaveStrike>& rivals) const {
    for (LeaveStrike& rival : rivals) {
      rival.chance = tries_.estimate(call_of(rival.prospect)).mean;
    }
    best_first(rivals);
  }

  /// The same touch and pace without side, if it has any: the plain stroke has to be among the
  /// rivals to be preferred.
  [[nodiscard]] std::optional<LeaveStrike> without_side(const LeaveStrike& strike) const {
    Touch touch = touch_of(strike.prospect.strike);
    if (touch.side == 0) return std::nullopt;
    touch.side = 0;
    auto prospect = prospect_of(scene_, position_, way_, touch);
    if (!prospect) return std::nullopt;
    return LeaveStrike{.prospect = *std::move(prospect)};
  }

  /// One round of a climb: plays the strike, and goes on from it as far as the tries tell; with the
  /// same side when that is to be `kept`.
  void climb(Prospect& strike, int tries, bool kept_side) {
    tries_.play(call_of(strike), tries);
    SharedTries::Estimate at = tries_.estimate(call_of(strike));
    // Further off, the tries tell too little and a lucky few decide.
    const double enough = 0.6 * at.effective;
    double step = 1;
    while (step > 0.2) {
      const double before = at.mean;
      take_best(strike, at, around(strike.strike, step, kept_side), enough);
      if (at.mean <= before) step *= 0.5;
    }
  }

 private:
  /// One thing changed at a time, or height against pace, by `step` sigmas of the player's errors:
  /// what the errors blur, a smaller step cannot tell apart.
  [[nodiscard]] std::vector<Touch> around(const engine::Strike& strike, double step,
                                          bool kept_side) const {
    const Touch from = touch_of(strike);
    const double radius_m = scene_.field.table().cue_ball.radius_m;
    std::vector<Touch> touches;
    for (const double change : {step, -step}) {
      const double side = from.side + change * scene_.player.tip_side_m.sigma / radius_m;
      const double height = from.height + change * scene_.player.tip_height_m.sigma / radius_m;
      const double more = from.cue_speed_mps * (1 + change * scene_.player.pace.sigma);
      const double less = from.cue_speed_mps * (1 - change * scene_.player.pace.sigma);
      touches.push_back({from.side, from.height, more});
      touches.push_back({from.side, height, from.cue_speed_mps});
      touches.push_back({from.side, height, less});
      if (!kept_side) touches.push_back({side, from.height, from.cue_speed_mps});
    }
    return touches;
  }

  /// Goes to the best of the touches, if it is better and rests on `enough` tries.
  void take_best(Prospect& best, SharedTries::Estimate& at, const std::vector<Touch>& touches,
                 double enough) const {
    auto probes = prospects_of(touches);
    std::vector<SharedTries::Estimate> estimates(probes.size());
    tbb::parallel_for(std::size_t{0}, probes.size(), [&](std::size_t i) {
      if (probes[i]) estimates[i] = tries_.estimate(call_of(*probes[i]));
    });
    for (std::size_t i = 0; i < probes.size(); ++i) {
      if (!probes[i] || estimates[i].effective < enough || estimates[i].mean <= at.mean) continue;
      at = estimates[i];
      best = *std::move(probes[i]);
    }
  }

  const Scene& scene_;
  const Position& position_;
  const Way& way_;
  const Worth& worth_;
  SharedTries tries_;
};

bool same_family(const Prospect& a, const Prospect& b) {
  return std::abs(a.strike.side - b.strike.side) < 0.1 &&
         std::abs(a.strike.height - b.strike.height) < 0.15 &&
         std::abs(std::log(a.strike.cue_speed_mps / b.strike.cue_speed_mps)) < 0.3;
}

/// Strikes that a player could not tell apart: the first of each stays.
void drop_twins(std::vector<LeaveStrike>& strikes) {
  std::vector<LeaveStrike> kept;
  for (LeaveStrike& strike : strikes) {
    const engine::Strike& one = strike.prospect.strike;
    const bool twin = std::ranges::any_of(kept, [&](const LeaveStrike& other) {
      const engine::Strike& two = other.prospect.strike;
      return std::abs(one.side - two.side) < 0.06 && std::abs(one.height - two.height) < 0.04 &&
             std::abs(std::log(one.cue_speed_mps / two.cue_speed_mps)) < 0.05;
    });
    if (!twin) kept.push_back(std::move(strike));
  }
  strikes = std::move(kept);
}

/// What the strike asks of the arm: side most, then pace, height and a raised butt.
double effort(const engine::Strike& strike) {
  return 3 * std::abs(strike.side) + strike.cue_speed_mps + std::abs(strike.height) +
         2 * strike.elevation_rad;
}

/// Puts the plainest of the strikes that are nearly as good as the best in front.
void prefer_the_plain(std::vector<LeaveStrike>& strikes) {
  if (strikes.empty()) return;
  const double enough = strikes.front().chance - price_of_plainness;
  auto plainest = strikes.begin();
  for (auto it = strikes.begin(); it != strikes.end() && it->chance >= enough; ++it) {
    if (effort(it->prospect.strike) < effort(plainest->prospect.strike)) plainest = it;
  }
  std::rotate(strikes.begin(), plainest, plainest + 1);
}

/// The best of different families climb, round by round, and join the rivals. Those that are behind
/// fall out: successive halving (Jamieson and Talwalkar (2016), AISTATS), here by quarters.
void climb_all(Search& search, std::vector<LeaveStrike>& rivals, const LeaveCare& care) {
  std::vector<LeaveStrike> climbers;
  for (const LeaveStrike& rival : rivals) {
    if (static_cast<int>(climbers.size()) >= care.climbers) break;
    const bool known = std::ranges::any_of(climbers, [&](const LeaveStrike& climber) {
      return same_family(climber.prospect, rival.prospect);
    });
    if (!known) climbers.push_back(rival);
  }
  constexpr std::size_t last = 2;
  for (int round = 0; round < care.rounds; ++round) {
    for (LeaveStrike& climber : climbers) search.climb(climber.prospect, care.round_tries, false);
    search.rank(climbers);
    const std::size_t staying = std::max(std::min(last, climbers.size()), climbers.size() * 3 / 4);
    const auto behind = climbers.begin() + static_cast<std::ptrdiff_t>(staying);
    std::move(behind, climbers.end(), std::back_inserter(rivals));
    climbers.erase(behind, climbers.end());
  }
  std::ranges::move(climbers, std::back_inserter(rivals));
  search.rank(rivals);
}

}  // namespace

std::vector<Touch> leave_touches() {
  std::vector<Touch> touches;
  for (const double side : sides) {
    for (const double height : heights) {
      for (const double speed_mps : speeds_mps) {
        touches.push_back({.side = side, .height = height, .cue_speed_mps = speed_mps});
      }
    }
  }
  return touches;
}

std::vector<LeaveStrike> search_leave(const Scene& scene, const Position& position, const Way& way,
                                      const Worth& worth, std::uint64_t seed,
                                      const LeaveCare& care) {
  Search search(scene, position, way, worth, seed);
  std::vector<LeaveStrike> rivals = search.first_rivals(care);
  if (rivals.empty()) return rivals;
  climb_all(search, rivals, care);
  if (auto plain = search.without_side(rivals.front())) {
    for (int round = 0; round < care.rounds; round += 3) {
      search.climb(plain->prospect, care.round_tries, true);
    }
    rivals.push_back(*std::move(plain));
    search.rank(rivals);
  }
  drop_twins(rivals);
  rivals.resize(std::min(rivals.size(), static_cast<std::size_t>(care.last_rivals)));
  // Other draws than those that chose: the winner of a race is flattered by its own.
  Search judge(scene, position, way, worth, seed + 0x0b5e55ed);
  judge.play(rivals, care.last_tries);
  for (LeaveStrike& rival : rivals) rival.tries = care.last_tries;
  prefer_the_plain(rivals);
  return rivals;
}

}  // namespace ahead::coach
