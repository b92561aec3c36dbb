#include <benchmark/benchmark.h>

#include "bench/scenes.h"

// Whole shots: how many a second, and how many events a second.
namespace ahead::bench {
namespace {

void play_in_turn(benchmark::State& state, const Scene& scene) {
  std::size_t next = 0;
  std::size_t events = 0;
  for ([[maybe_unused]] auto _ : state) {
    events += scene.events(next);
    next = (next + 1) % scene.shots;
  }
  const auto rate = [](auto count) {
    return benchmark::Counter(static_cast<double>(count), benchmark::Counter::kIsRate);
  };
  state.counters["shots_per_second"] = rate(state.iterations());
  state.counters["events_per_second"] = rate(events);
}

void clearance_shots_in_turn(benchmark::State& state) { play_in_turn(state, clearance_shots()); }
BENCHMARK(clearance_shots_in_turn)->Name("clearance_shots");

void leave_grid_in_turn(benchmark::State& state) { play_in_turn(state, leave_grid()); }
BENCHMARK(leave_grid_in_turn)->Name("leave_grid");

void break_in_turn(benchmark::State& state) { play_in_turn(state, break_shot()); }
BENCHMARK(break_in_turn)->Name("break");

void among_balls_in_turn(benchmark::State& state) {
  play_in_turn(state, among_balls(static_cast<std::size_t>(state.range(0))));
}
BENCHMARK(among_balls_in_turn)->Name("among_balls")->DenseRange(4, 16, 4);

}  // namespace
}  // namespace ahead::bench
