#pragma once

#include <cstddef>
#include <cstdio>
#include <cstdlib>
#include <string_view>
#include <utility>
#include <vector>

#include <benchmark/benchmark.h>

#include "engine/equipment/presets.h"
#include "engine/simulate/simulate.h"

/// What the benchmarks share: a shot with a fixed answer, and the two rates that are reported.
namespace ahead::bench {

struct Played {
  std::vector<engine::Vec2> balls;
  engine::Strike strike;
};

inline const engine::Playfield& english() {
  static const engine::Playfield field(*engine::table_preset("english-7ft"));
  return field;
}

/// Stops the run when a benchmark's answer is wrong: a fast wrong answer is no result.
inline void require(bool right, const char* what) {
  if (right) return;
  std::fprintf(stderr, "benchmark gives a wrong answer: %s\n", what);
  std::exit(1);
}

/// Plays the shots in turn and reports shots and events a second.
inline void play_in_turn(benchmark::State& state, const engine::Playfield& field,
                         const std::vector<Played>& shots) {
  std::size_t next = 0;
  double events = 0;
  double played = 0;
  engine::Simulation simulation(field);
  for (auto _ : state) {
    const Played& p = shots[next];
    next = (next + 1) % shots.size();
    const engine::Shot& shot = simulation.play(p.balls, p.strike);
    events += static_cast<double>(shot.events.size());
    ++played;
    benchmark::DoNotOptimize(shot.endings.data());
  }
  state.counters["shots_per_second"] = benchmark::Counter(played, benchmark::Counter::kIsRate);
  state.counters["events_per_second"] = benchmark::Counter(events, benchmark::Counter::kIsRate);
}

}  // namespace ahead::bench
