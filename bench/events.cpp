#include <array>
#include <cmath>
#include <numbers>

#include <benchmark/benchmark.h>

#include "bench/english.h"
#include "bench/scenes.h"
#include "engine/contact/ball_ball.h"
#include "engine/contact/cushion.h"
#include "engine/contact/landing.h"
#include "engine/contact/touching_group.h"
#include "engine/motion/motion.h"
#include "engine/simulate/next_contact.h"

// One event of each kind, and the search for the next one.
namespace ahead::bench {
namespace {

using namespace engine;  // NOLINT(google-build-using-namespace): one engine function after another

constexpr Ball ball{.radius_m = 0.0254, .mass_kg = 0.116};

BallState rolling(Vec2 v) {
  return {.position = {0, 0, ball.radius_m},
          .velocity = lift(v),
          .spin = lift(left_of(v) / ball.radius_m, 5)};
}

/// Sixteen directions of approach, so that no answer is learnt by heart.
Vec2 approach(std::size_t i) { return 1.3 * direction(1.2 * std::sin(static_cast<double>(i))); }

template <class Event>
void in_turn(benchmark::State& state, Event event) {
  std::array<BallState, 16> before;
  for (std::size_t i = 0; i < before.size(); ++i) before[i] = rolling(approach(i));
  std::size_t next = 0;
  for ([[maybe_unused]] auto _ : state) {
    benchmark::DoNotOptimize(event(before[next]));
    next = (next + 1) % before.size();
  }
  state.counters["events_per_second"] =
      benchmark::Counter(static_cast<double>(state.iterations()), benchmark::Counter::kIsRate);
}

void strike_event(benchmark::State& state) {
  const Strike strike{.elevation_rad = 0.05, .side = 0.2, .height = -0.3, .cue_speed_mps = 1.5};
  const auto event = [&](const BallState& at) { return struck(at, strike, ball, {}, {}); };
  require(event(rolling({})).velocity.x > 1, "the strike sends the ball on");
  in_turn(state, event);
}
BENCHMARK(strike_event);

void ball_ball_event(benchmark::State& state) {
  const BallState other{.position = {2 * ball.radius_m, 0, ball.radius_m}};
  const auto event = [&](const BallState& at) { return collided(at, ball, other, ball, {}); };
  const double after = event(rolling({1, 0})).second.velocity.x;
  require(std::abs(after - 0.97) < 0.01, "the object ball takes the blow");
  in_turn(state, event);
}
BENCHMARK(ball_ball_event);

void cushion_event(benchmark::State& state) {
  const double sin_theta = 0.27;
  const Vec3 to_nose{std::sqrt(1 - sin_theta * sin_theta), 0, sin_theta};
  const auto event = [&](const BallState& at) {
    return rebounded(at, ball, to_nose, Support::bed, {}, {});
  };
  require(std::abs(event(rolling({1, 0})).velocity.x + 0.888) < 0.01, "a square rebound");
  in_turn(state, event);
}
BENCHMARK(cushion_event);

void landing_event(benchmark::State& state) {
  const auto event = [&](BallState at) {
    at.velocity.z = -1;
    return landed(at, ball, {});
  };
  require(std::abs(event(rolling({1, 0})).velocity.z - 0.5) < 1e-12, "half comes back");
  in_turn(state, event);
}
BENCHMARK(landing_event);

void group_of_three_event(benchmark::State& state) {
  const double R = ball.radius_m;
  const Vec2 along = 2 * R * direction(std::numbers::pi / 6);
  const auto event = [&](const BallState& at) {
    std::array<BallState, 3> states{
        at, {.position = lift(along, R)}, {.position = {along.x, -along.y, R}}};
    TouchingGroup{}.resolve(states, std::array{ball, ball, ball}, {});
    return states;
  };
  const auto after = event(rolling({1, 0}));
  require(after[0].velocity.x < 0 && after[1].velocity.x > 0.5, "the pair is split");
  in_turn(state, event);
}
BENCHMARK(group_of_three_event);

void phase_end_event(benchmark::State& state) {
  const auto event = [&](BallState at) {
    at.spin = {};
    const double lasts_s = phase_duration_s(Phase::sliding, at, ball, {});
    return at_phase_end(Phase::sliding, at, ball, {}, lasts_s);
  };
  require(std::abs(event(rolling({1, 0})).velocity.x - 5.0 / 7) < 1e-12, "five sevenths");
  in_turn(state, event);
}
BENCHMARK(phase_end_event);

/// Looking along one path for the nose and the pockets of a whole table.
void search_for_cushion_and_pocket(benchmark::State& state) {
  const Table& table = english().table();
  const double reach_m = english().object_ball().reach_m;
  const auto event = [&](BallState at) {
    at.position = {0.45, 0.9, ball.radius_m};
    const double lasts_s = phase_duration_s(Phase::rolling, at, ball, table.cloth);
    const Path path = path_of(Phase::rolling, at, ball, table.cloth, lasts_s);
    return std::pair{next_nose(path, english().nose(), table, ball, reach_m),
                     next_pocket(path, table, ball)};
  };
  require(event(rolling({0, 1.3})).first.t_s < 1, "the top cushion is met");
  in_turn(state, event);
}
BENCHMARK(search_for_cushion_and_pocket);

}  // namespace
}  // namespace ahead::bench
