#include "coach/leaves/leave_search.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <optional>
#include <utility>

#include <tbb/parallel_for.h>

#include "coach/risk/tries.h"

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

/// Rivals of one search, and the tries that they meet.
class Search {
 public:
  Search(const Scene& scene, const Position& position, const Way& way, const Worth& worth,
         std::uint64_t seed)
      : scene_(scene), position_(position), way_(way), worth_(worth), seed_(seed) {}

  [[nodiscard]] std::vector<Prospect> grid() const {
    const std::vector<Touch> touches = leave_touches();
    std::vector<std::optional<Prospect>> found(touches.size());
    tbb::parallel_for(std::size_t{0}, touches.size(), [&](std::size_t i) {
      found[i] = prospect_of(scene_, position_, way_, touches[i]);
    });
    std::vector<Prospect> prospects;
    for (auto& one : found) {
      if (one) prospects.push_back(*std::move(one));
    }
    return prospects;
  }

  [[nodiscard]] double chance(const Prospect& prospect, int tries, std::uint64_t seed) const {
    double sum = 0;
    for (const Try& one : tries_of(scene_, position_, call_of(prospect), tries, seed)) {
      sum += worth_of(one);
    }
    return sum / tries;
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

  /// Changes one thing at a time by ever smaller steps while that helps.
  [[nodiscard]] LeaveStrike climbed(LeaveStrike best, const LeaveCare& care) const {
    const auto tries = static_cast<std::size_t>(care.search_tries);
    std::vector<double> known = played(best.prospect, {}, tries);
    best.chance = mean(known, tries);
    double step = 1;
    for (int round = 0; round < care.rounds; ++round) {
      const Touch from = touch_of(best.prospect.strike);
      const double side = 0.09 * step;
      const double height = 0.05 * step;
      const double pace = 1 + 0.1 * step;
      const std::array probes{Touch{from.side, from.height, from.cue_speed_mps * pace},
                              Touch{from.side, from.height, from.cue_speed_mps / pace},
                              Touch{from.side, from.height + height, from.cue_speed_mps},
                              Touch{from.side, from.height - height, from.cue_speed_mps},
                              Touch{from.side + side, from.height, from.cue_speed_mps},
                              Touch{from.side - side, from.height, from.cue_speed_mps},
                              Touch{from.side, from.height + height, from.cue_speed_mps / pace},
                              Touch{from.side, from.height - height, from.cue_speed_mps * pace}};
      bool better = false;
      for (const Touch& touch : probes) {
        auto tried = prospect_of(scene_, position_, way_, touch);
        if (!tried) continue;
        std::vector<double> worths = played_against(known, *tried);
        if (worths.size() < tries || mean(worths, tries) <= best.chance) continue;
        best.chance = mean(worths, tries);
        known = std::move(worths);
        best.prospect = *std::move(tried);
        better = true;
      }
      if (!better) step *= 0.5;
    }
    return best;
  }

 private:
  [[nodiscard]] double worth_of(const Try& one) const {
    return succeeded(one) ? worth_(one.leaves.at[0]) : 0;
  }

  /// What each of the first tries is worth; `known` are the first of them.
  [[nodiscard]] std::vector<double> played(const Prospect& prospect, std::vector<double> known,
                                           std::size_t tries) const {
    const std::size_t from = known.size();
    known.resize(tries);
    tbb::parallel_for(from, tries, [&](std::size_t i) {
      known[i] = worth_of(try_once(scene_, position_, call_of(prospect), seed_, i));
    });
    return known;
  }

  /// The worths of a probe over the draws of the best so far, in stages that double: one that lies
  /// far behind over the same draws is played no further. The more draws, the nearer is far.
  [[nodiscard]] std::vector<double> played_against(const std::vector<double>& known,
                                                   const Prospect& probe) const {
    constexpr std::size_t first_stage = 32;
    std::vector<double> worths;
    for (std::size_t stage = first_stage; worths.size() < known.size(); stage *= 2) {
      const std::size_t tries = std::min(stage, known.size());
      worths = played(probe, std::move(worths), tries);
      const double doubt = std::sqrt(static_cast<double>(first_stage) / static_cast<double>(tries));
      if (mean(worths, tries) < (1 - 0.1 * doubt) * mean(known, tries) - 0.01 * doubt) break;
    }
    return worths;
  }

  static double mean(const std::vector<double>& worths, std::size_t first) {
    const auto end = worths.begin() + static_cast<std::ptrdiff_t>(first);
    return std::accumulate(worths.begin(), end, 0.0) / static_cast<double>(first);
  }

  const Scene& scene_;
  const Position& position_;
  const Way& way_;
  const Worth& worth_;
  std::uint64_t seed_;
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

void best_first(std::vector<LeaveStrike>& strikes) {
  std::ranges::stable_sort(strikes, std::ranges::greater{}, &LeaveStrike::chance);
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
  const Search search(scene, position, way, worth, seed);
  std::vector<LeaveStrike> rivals;
  for (Prospect& prospect : search.grid()) {
    const double first = promise(prospect, worth);
    rivals.push_back({.prospect = std::move(prospect), .chance = first});
  }
  best_first(rivals);
  rivals.resize(std::min(rivals.size(), static_cast<std::size_t>(care.first_rivals)));
  for (LeaveStrike& rival : rivals) {
    rival.chance = search.chance(rival.prospect, care.first_tries, seed);
  }
  best_first(rivals);

  std::vector<LeaveStrike> starts;
  for (const LeaveStrike& rival : rivals) {
    if (static_cast<int>(starts.size()) >= care.starts) break;
    const bool known = std::ranges::any_of(starts, [&](const LeaveStrike& start) {
      return same_family(start.prospect, rival.prospect);
    });
    if (!known) starts.push_back(rival);
  }
  for (const LeaveStrike& start : starts) rivals.push_back(search.climbed(start, care));
  best_first(rivals);
  if (rivals.empty()) return rivals;
  if (const auto plain = search.without_side(rivals.front())) {
    rivals.push_back(search.climbed(*plain, care));
    best_first(rivals);
  }
  drop_twins(rivals);
  rivals.resize(std::min(rivals.size(), static_cast<std::size_t>(care.last_rivals)));
  // Other draws than those that chose: the winner of a race is flattered by its own.
  for (LeaveStrike& rival : rivals) {
    rival.chance = search.chance(rival.prospect, care.last_tries, seed + 0x0b5e55ed);
    rival.tries = care.last_tries;
  }
  best_first(rivals);
  prefer_the_plain(rivals);
  return rivals;
}

}  // namespace ahead::coach
