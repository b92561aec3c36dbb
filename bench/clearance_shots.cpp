#include <algorithm>
#include <cmath>
#include <numbers>

#include "bench/scene.h"

// The shots of a clearance: four to eight balls on the table, each played at another ball and from
// another height, as a planner tries them.
namespace ahead::bench {
namespace {

using engine::Vec2;

/// Balls of a clearance in mid-game; the cue ball first.
const std::vector<Vec2>& places() {
  static const std::vector<Vec2> spread{{0.62, 0.95}, {0.30, 1.52}, {0.71, 1.31}, {0.22, 0.74},
                                        {0.51, 1.66}, {0.80, 0.44}, {0.38, 0.31}, {0.13, 1.18}};
  return spread;
}

std::vector<Played> mix() {
  std::vector<Played> shots;
  for (std::size_t count = 4; count <= 8; ++count) {
    for (std::size_t target = 1; target < count; ++target) {
      const std::vector<Vec2> balls(places().begin(),
                                    places().begin() + static_cast<std::ptrdiff_t>(count));
      const Vec2 line = balls[target] - balls[0];
      const auto turn = static_cast<double>(shots.size());
      shots.push_back({balls,
                       {.aim_rad = angle_rad(line) + 0.05 * std::sin(2.4 * turn),
                        .elevation_rad = 0.03 + 0.03 * std::cos(1.7 * turn),
                        .side = 0.25 * std::sin(0.9 * turn),
                        .height = 0.35 * std::cos(1.3 * turn),
                        .cue_speed_mps = 0.8 + 0.5 * (1 + std::sin(3.1 * turn))}});
    }
  }
  return shots;
}

void clearance_shots(benchmark::State& state) {
  const std::vector<Played> shots = mix();
  require(shots.size() == 25, "25 shots in the mix");
  std::size_t met = 0;
  for (const Played& p : shots) {
    const engine::Shot shot = simulate(english(), p.balls, p.strike);
    met += std::ranges::any_of(shot.events, [](const engine::Event& event) {
      return event.kind == engine::EventKind::ball_ball;
    });
    require(std::ranges::none_of(shot.endings, &engine::Ending::off_table), "all on the table");
  }
  require(met >= 20, "most of the shots meet a ball");
  play_in_turn(state, english(), shots);
}
BENCHMARK(clearance_shots);

/// Fifteen balls, racked with the gaps of a real rack, and a firm shot at the first.
void break_shot(benchmark::State& state) {
  std::vector<Vec2> balls{{0.47, 0.30}};
  const engine::Table& table = english().table();
  const double apart_m = 2 * table.object_ball.radius_m + 2e-5;
  for (int row = 0; row < 5; ++row) {
    for (int i = 0; i <= row; ++i) {
      balls.push_back({table.width_m / 2 + apart_m * (i - 0.5 * row),
                       table.markings.spot.y + apart_m * (row - 2) * std::numbers::sqrt3 / 2});
    }
  }
  const Vec2 line = balls[1] - balls[0];
  const Played p{balls, {.aim_rad = angle_rad(line), .cue_speed_mps = 5.5}};
  const engine::Shot shot = simulate(english(), p.balls, p.strike);
  std::size_t moved = 0;
  for (std::size_t i = 1; i < balls.size(); ++i) {
    moved += norm(plan(shot.endings[i].position) - balls[i]) > 0.02 ? 1 : 0;
  }
  require(moved >= 12, "the break spreads the rack");
  play_in_turn(state, english(), {p});
}
BENCHMARK(break_shot)->Name("break");

}  // namespace
}  // namespace ahead::bench
