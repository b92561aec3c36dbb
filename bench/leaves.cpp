#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include <benchmark/benchmark.h>

#include "bench/scenes.h"
#include "coach/leaves/leave_search.h"
#include "coach/player/player.h"
#include "coach/random.h"
#include "engine/equipment/presets.h"

// The search for a strike to a wanted leave, and what it loses against one with far more of
// everything. Both are judged by tries that chose nothing.
namespace ahead::bench {
namespace {

struct Wish {
  coach::Scene scene;
  coach::Position position;
  coach::Way way;
  coach::Worth worth;
};

/// Random pots with a random circle that can be reached more than now and then.
std::vector<Wish> find_wishes(std::size_t count) {
  coach::Random random(20, 1);
  const engine::Table table = *engine::table_preset("english-7ft");
  const engine::Playfield field(table);
  const auto between = [&](double low, double high) {
    return low + (high - low) * random.uniform();
  };
  std::vector<Wish> found;
  while (found.size() < count) {
    coach::Layout layout{.table = table, .to_play = coach::ToPlay::red};
    const auto place = [&](double low, double high) {
      const double x = between(0.1, 0.8);
      return engine::Vec2{x, between(low, high)};
    };
    layout.balls.push_back({.id = "cue", .colour = coach::Colour::cue, .at = place(0.4, 1.1)});
    layout.balls.push_back({.id = "red-1", .colour = coach::Colour::red, .at = place(1.25, 1.7)});
    const engine::Vec2 leave = place(0.3, 1.7);
    const coach::Scene scene =
        coach::scene_of(layout, layout.to_play, *coach::player_preset("club"), field);
    const coach::Position position = coach::position_of(layout);
    const coach::Worth worth(scene, position, 1, coach::Leave{leave, 0.15});
    for (coach::Way& way : coach::ways_of(scene, position, 1)) {
      const auto first = coach::search_leave(scene, position, way, worth, 1);
      if (first.empty() || first.front().chance < 0.1) continue;
      found.push_back({scene, position, std::move(way), worth});
      break;
    }
  }
  return found;
}

/// The best strike found, judged by tries of its own: what a search says of its best is flattered,
/// the more so the more rivals it had.
double best_chance(const Wish& wish, const coach::LeaveCare& care) {
  const auto found = coach::search_leave(wish.scene, wish.position, wish.way, wish.worth, 5, care);
  const auto best = std::ranges::max_element(found, {}, &coach::LeaveStrike::chance);
  constexpr int tries = 20'000;
  double sum = 0;
  for (const coach::Try& one :
       coach::tries_of(wish.scene, wish.position, call_of(best->prospect), tries, 77)) {
    if (coach::succeeded(one)) sum += wish.worth(one.leaves.at[0]);
  }
  return sum / tries;
}

constexpr std::size_t wish_count = 100;

/// Found once: a benchmark is called again and again.
const std::vector<Wish>& wishes() {
  static const std::vector<Wish> found = find_wishes(wish_count);
  return found;
}

/// Fifty times the tries of the usual search.
constexpr coach::LeaveCare dense{.first_rivals = 300,
                                 .first_tries = 600,
                                 .climb = {.climbers = 24, .rounds = 24, .tries = 2600},
                                 .last_rivals = 20,
                                 .last_tries = 3000};

void leave_search(benchmark::State& state) {
  const std::vector<Wish>& all = wishes();
  std::size_t next = 0;
  for ([[maybe_unused]] auto _ : state) {
    const Wish& wish = all[next];
    benchmark::DoNotOptimize(
        coach::search_leave(wish.scene, wish.position, wish.way, wish.worth, 5));
    next = (next + 1) % all.size();
  }
}
/// Each wish once: some take twice as long as others.
BENCHMARK(leave_search)->Unit(benchmark::kMillisecond)->UseRealTime()->Iterations(wish_count);

/// Takes some quarter of an hour, so it is played once.
void leave_search_dense(benchmark::State& state) {
  double of_dense = 0;
  double least = 1;
  int near = 0;
  const std::vector<Wish>& all = wishes();
  for ([[maybe_unused]] auto _ : state) {
    for (const Wish& wish : all) {
      const double dense_chance = best_chance(wish, dense);
      const double chance = best_chance(wish, {});
      of_dense += chance / dense_chance / static_cast<double>(all.size());
      least = std::min(least, chance / dense_chance);
      near += chance >= dense_chance - 0.02 ? 1 : 0;
    }
  }
  state.counters["of_the_dense_search"] = of_dense;
  state.counters["at_least"] = least;
  state.counters["within_2_points"] = near;
}
BENCHMARK(leave_search_dense)->Unit(benchmark::kSecond)->UseRealTime()->Iterations(1);

}  // namespace
}  // namespace ahead::bench
