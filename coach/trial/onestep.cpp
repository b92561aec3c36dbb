#include "coach/trial/onestep.h"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include <tbb/parallel_for.h>

namespace ahead::coach {
namespace {

// A yardstick must not grow with what it measures, so these are its own, and not the planner's.
constexpr std::array heights{-0.42, -0.30, -0.18, -0.08, 0.0, 0.12, 0.28};
constexpr std::array sides{-0.28, 0.0, 0.28};
constexpr std::array speeds_mps{0.45, 0.6, 0.8, 1.05, 1.4, 1.85, 2.4};

struct Round {
  std::size_t rivals;
  int tries;
};
constexpr std::array rounds{Round{24, 40}, Round{10, 160}, Round{4, 400}};

struct Rival {
  Prospect prospect;
  double two_balls = 0;
};

/// Mean over the cue ball's likely run of the best next pot.
double at_first_sight(const ValueField& field, const Prospect& prospect) {
  double mean = 0;
  for (const double share : {-1.2, 0.0, 1.2}) {
    mean +=
        field.best_pot(prospect.leaves.present, prospect.leaves.at[0] + share * prospect.drift) / 3;
  }
  return prospect.pot * mean;
}

std::vector<Rival> rivals_of(const Scene& scene, const ValueField& field,
                             const Position& position) {
  const BallSet on = balls_on(scene.task, position.present);
  std::vector<Way> ways;
  for (const Way& way : field.ways()) {
    if (has(on, way.ball) && (way.blockers & position.present) == 0) ways.push_back(way);
  }
  constexpr std::size_t touches = heights.size() * sides.size() * speeds_mps.size();
  std::vector<std::optional<Prospect>> found(ways.size() * touches);
  tbb::parallel_for(std::size_t{0}, found.size(), [&](std::size_t i) {
    const std::size_t t = i % touches;
    found[i] = prospect_of(scene, position, ways[i / touches],
                           {.side = sides[t / speeds_mps.size() % sides.size()],
                            .height = heights[t / (speeds_mps.size() * sides.size())],
                            .cue_speed_mps = speeds_mps[t % speeds_mps.size()]});
  });
  std::vector<Rival> rivals;
  for (auto& one : found) {
    if (!one) continue;
    const double two_balls = at_first_sight(field, *one);
    rivals.push_back({.prospect = *std::move(one), .two_balls = two_balls});
  }
  return rivals;
}

}  // namespace

std::optional<OneStep> best_for_next_ball(const Scene& scene, const ValueField& field,
                                          const Position& position, std::uint64_t seed,
                                          long& simulated_shots) {
  auto rivals = rivals_of(scene, field, position);
  simulated_shots += static_cast<long>(rivals.size());
  if (rivals.empty()) return std::nullopt;
  std::ranges::stable_sort(rivals, std::ranges::greater{}, &Rival::two_balls);
  for (const Round& round : rounds) {
    rivals.resize(std::min(rivals.size(), round.rivals));
    for (Rival& rival : rivals) {
      double sum = 0;
      for (const Try& one : tries_of(scene, position, call_of(rival.prospect), round.tries, seed)) {
        if (succeeded(one)) sum += field.best_pot(one.leaves.present, one.leaves.at[0]);
      }
      rival.two_balls = sum / round.tries;
      simulated_shots += round.tries;
    }
    std::ranges::stable_sort(rivals, std::ranges::greater{}, &Rival::two_balls);
  }
  return OneStep{.call = call_of(rivals.front().prospect), .two_balls = rivals.front().two_balls};
}

}  // namespace ahead::coach
