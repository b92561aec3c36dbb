#include "coach/plan/choose.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <map>
#include <optional>
#include <ranges>
#include <utility>

#include <tbb/parallel_for.h>

#include "coach/plan/race.h"
#include "coach/pots/other_way.h"
#include "coach/pots/plain_strike.h"

namespace ahead::coach {
namespace {

constexpr std::array heights{-0.42, -0.30, -0.18, -0.08, 0.0, 0.12, 0.28};
constexpr std::array sides{-0.28, 0.0, 0.28};
constexpr std::array speeds_mps{0.45, 0.6, 0.8, 1.05, 1.4, 1.85, 2.4};

/// Of the first round, at most so many of one ball and pocket: the runner-up should be another
/// idea.
constexpr int rivals_a_way = 8;

/// A strike to look at.
struct Idea {
  const Way* way = nullptr;
  Touch touch;
};

/// Every touch of the set, for the ways of the balls on. What the field has found of them holds
/// while nothing has moved.
std::vector<Idea> all_ideas(const Scene& scene, const ValueField& field, const Position& position) {
  const BallSet on = balls_on(scene.task, position.present);
  std::vector<Idea> ideas;
  for (const Way& way : field.ways()) {
    if (!has(on, way.ball) || (way.blockers & position.present) != 0) continue;
    for (const double height : heights) {
      for (const double side : sides) {
        for (const double speed : speeds_mps) {
          ideas.push_back({&way, {.side = side, .height = height, .cue_speed_mps = speed}});
        }
      }
    }
  }
  return ideas;
}

std::vector<Idea> hinted_ideas(const ValueField& field, const Position& position,
                               std::size_t most) {
  std::vector<Idea> ideas;
  for (const auto& hint : field.hints(position.present, position.at[0], most)) {
    ideas.push_back({&field.ways()[static_cast<std::size_t>(hint.way)], hint.touch});
  }
  return ideas;
}

/// Those that are legal pots, each with its worth at first sight.
std::vector<Weighed> looked_at(const Scene& scene, const ValueField& field,
                               const Position& position, const std::vector<Idea>& ideas) {
  std::vector<std::optional<Weighed>> found(ideas.size());
  tbb::parallel_for(std::size_t{0}, found.size(), [&](std::size_t i) {
    auto prospect = prospect_of(scene, position, *ideas[i].way, ideas[i].touch);
    if (!prospect) return;
    const double worth = first_worth(scene, field, *prospect);
    found[i] = Weighed{.prospect = *std::move(prospect), .worth = worth};
  });
  std::vector<Weighed> all;
  for (auto& one : found) {
    if (one) all.push_back(*std::move(one));
  }
  return all;
}

/// The pots that are not direct.
std::vector<Weighed> other_pots(const Scene& scene, const ValueField& field,
                                const Position& position, std::uint64_t seed) {
  std::vector<Weighed> found;
  const BallSet on = balls_on(scene.task, position.present);
  for (const OtherWay& way : other_ways(scene, position, on, seed)) {
    auto prospect = prospect_of(
        scene, position,
        {.ball = way.ball, .pocket = way.pocket, .strike = way.strike, .access = way.access},
        way.pot.value);
    if (!prospect) continue;
    const double worth = first_worth(scene, field, *prospect);
    found.push_back({.prospect = *std::move(prospect), .worth = worth});
  }
  return found;
}

/// Puts the plainest of the strikes that are as good as the best of the same pot in front.
void prefer_the_plainest(std::vector<Weighed>& rivals) {
  constexpr double as_good = 0.97;
  if (rivals.empty()) return;
  std::size_t plainest = 0;
  for (std::size_t i = 1; i < rivals.size(); ++i) {
    const Weighed& best = rivals.front();
    const Weighed& one = rivals[i];
    const bool same_pot =
        one.prospect.ball == best.prospect.ball && one.prospect.pocket == best.prospect.pocket;
    if (same_pot && one.worth >= as_good * best.worth &&
        effort(one.prospect.strike) < effort(rivals[plainest].prospect.strike)) {
      plainest = i;
    }
  }
  std::rotate(rivals.begin(), rivals.begin() + static_cast<std::ptrdiff_t>(plainest),
              rivals.begin() + static_cast<std::ptrdiff_t>(plainest) + 1);
}

}  // namespace

double first_worth(const Scene& scene, const ValueField& field, const Prospect& prospect) {
  const BallSet left = prospect.leaves.present & (scene.task.own | scene.task.black);
  if (left == 0) return prospect.pot;
  return prospect.pot * field.value_along(scene, prospect.leaves, 1.2 * prospect.drift);
}

std::vector<Weighed> weigh_shots(const Scene& scene, const ValueField& field,
                                 const Position& position, std::uint64_t seed,
                                 long& simulated_shots, const ShotCare& care) {
  std::vector<Idea> ideas;
  if (care.hints > 0) ideas = hinted_ideas(field, position, care.hints);
  std::vector<Weighed> all = looked_at(scene, field, position, ideas);
  if (all.empty()) {
    all = looked_at(scene, field, position, all_ideas(scene, field, position));
  }
  const bool likely = std::ranges::any_of(
      all, [&](const Weighed& one) { return one.prospect.pot >= care.other_ways_below; });
  if (!likely && care.other_ways_below > 0) {
    std::ranges::move(other_pots(scene, field, position, seed), std::back_inserter(all));
  }
  simulated_shots += static_cast<long>(all.size());
  // Strikes of the same hundredth: the plainer stroke first.
  std::ranges::stable_sort(all, [](const Weighed& a, const Weighed& b) {
    const double first = std::round(100 * a.worth);
    const double second = std::round(100 * b.worth);
    if (first != second) return first > second;
    if (first == 0 && a.worth != b.worth) return a.worth > b.worth;
    return effort(a.prospect.strike) < effort(b.prospect.strike);
  });

  std::vector<Weighed> rivals;
  std::map<std::pair<int, int>, int> of_way;
  for (const Weighed& one : all) {
    if (rivals.size() >= care.rounds.front().rivals) break;
    if (++of_way[{one.prospect.ball, one.prospect.pocket}] <= rivals_a_way) rivals.push_back(one);
  }
  Race race(scene, field, position, seed);
  race.run(rivals, care.rounds.front());
  race.climb(rivals, field.ways(), care.climb);
  for (const Round& round : care.rounds | std::views::drop(1)) race.run(rivals, round);
  simulated_shots += race.simulated_shots();
  prefer_the_plainest(rivals);
  return rivals;
}

}  // namespace ahead::coach
