#include "coach/leaves/leave_search.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include <tbb/parallel_for.h>

#include "coach/pots/plain_strike.h"
#include "coach/risk/shared_tries.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

constexpr std::array heights{-0.44, -0.34, -0.24, -0.14, -0.05, 0.05, 0.15, 0.28, 0.40};
constexpr std::array sides{0.0, -0.18, 0.18, -0.36, 0.36};
constexpr std::array speeds_mps{0.4, 0.52, 0.66, 0.82, 1.0, 1.25, 1.55, 1.9, 2.3, 2.8, 3.4};

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

  /// The best of the grid, played.
  [[nodiscard]] std::vector<LeaveStrike> first_rivals(const LeaveCare& care) {
    const std::vector<Touch> touches = leave_touches();
    std::vector<std::optional<Prospect>> found(touches.size());
    tbb::parallel_for(std::size_t{0}, touches.size(), [&](std::size_t i) {
      found[i] = prospect_of(scene_, position_, way_, touches[i]);
    });
    std::vector<LeaveStrike> rivals;
    for (auto& one : found) {
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

  /// What climbs from the best of them come to joins them.
  void climb(std::vector<LeaveStrike>& rivals, const ClimbCare& care) {
    std::vector<Prospect> ranked;
    for (const LeaveStrike& rival : rivals) ranked.push_back(rival.prospect);
    const auto slope_of = [this](const Prospect&) { return slope(); };
    for (Prospect& one : climb_all(ranked, slope_of, scene_, position_, care)) {
      rivals.push_back({.prospect = std::move(one)});
    }
    rank(rivals);
  }

  /// The best of them without side joins them, if it has any: the plain stroke has to be among the
  /// rivals to be preferred.
  void add_the_plain(std::vector<LeaveStrike>& rivals, const ClimbCare& care) {
    const engine::Strike& best = rivals.front().prospect.strike;
    if (best.side == 0) return;
    auto plain = without_side(scene_, position_, way_, best);
    if (!plain) return;
    for (int round = 0; round < care.rounds; round += 3) {
      coach::climb(*plain, slope(), scene_, position_, care.tries, true);
    }
    rivals.push_back({.prospect = *std::move(plain)});
    rank(rivals);
  }

 private:
  [[nodiscard]] Slope slope() { return {.way = &way_, .tries = &tries_}; }

  const Scene& scene_;
  const Position& position_;
  const Way& way_;
  const Worth& worth_;
  SharedTries tries_;
};

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
  search.climb(rivals, care.climb);
  search.add_the_plain(rivals, care.climb);
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
