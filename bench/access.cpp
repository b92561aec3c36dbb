#include "coach/access/access.h"

#include <numbers>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include "bench/english.h"
#include "bench/scenes.h"
#include "coach/access/face.h"

// Whether a strike can be made, as the planner asks it for every strike, and the map of a whole
// face, as it is drawn for every shot that is shown.
namespace ahead::bench {
namespace {

constexpr double degrees = std::numbers::pi / 180;

struct Table {
  coach::Scene scene;
  coach::Position position;
};

/// Fifteen balls about the table, two of them behind the cue ball.
Table crowded() {
  coach::Layout layout{.table = english().table(), .to_play = coach::ToPlay::red};
  const std::vector<engine::Vec2> places{{0.45, 0.90}, {0.44, 0.78}, {0.52, 0.70}, {0.20, 0.30},
                                         {0.70, 0.30}, {0.20, 0.60}, {0.70, 0.60}, {0.15, 1.00},
                                         {0.80, 1.00}, {0.20, 1.30}, {0.45, 1.30}, {0.70, 1.30},
                                         {0.25, 1.60}, {0.45, 1.60}, {0.70, 1.60}};
  for (std::size_t i = 0; i < places.size(); ++i) {
    const std::string id = i == 0 ? "cue" : "red-" + std::to_string(i);
    layout.balls.push_back({.id = id, .colour = *coach::colour_of_id(id), .at = places[i]});
  }
  return {coach::scene_of(layout, coach::ToPlay::red, *coach::player_preset("club")),
          coach::position_of(layout)};
}

/// Each of 36 directions in turn.
double turned(double aim_rad) { return aim_rad + 70 * degrees; }

void access_of_a_strike(benchmark::State& state) {
  const Table table = crowded();
  const coach::Access over =
      coach::access(table.scene, table.position, {.aim_rad = 90 * degrees, .cue_speed_mps = 1});
  require(over.raised_by == coach::InTheWay::ball, "a ball stands behind the cue ball");
  double aim_rad = 0;
  for ([[maybe_unused]] auto _ : state) {
    benchmark::DoNotOptimize(
        coach::access(table.scene, table.position, {.aim_rad = aim_rad, .cue_speed_mps = 1}));
    aim_rad = turned(aim_rad);
  }
}
BENCHMARK(access_of_a_strike);

void access_of_a_face(benchmark::State& state) {
  const Table table = crowded();
  double aim_rad = 0;
  for ([[maybe_unused]] auto _ : state) {
    benchmark::DoNotOptimize(coach::face_of(table.scene, table.position, aim_rad));
    aim_rad = turned(aim_rad);
  }
}
BENCHMARK(access_of_a_face);

/// What a strike's access is measured against: the simulation that follows it.
void simulation_of_a_strike(benchmark::State& state) {
  const Table table = crowded();
  double aim_rad = 0;
  for ([[maybe_unused]] auto _ : state) {
    benchmark::DoNotOptimize(
        coach::play(table.scene.field, table.position, {.aim_rad = aim_rad, .cue_speed_mps = 1}));
    aim_rad = turned(aim_rad);
  }
}
BENCHMARK(simulation_of_a_strike);

}  // namespace
}  // namespace ahead::bench
