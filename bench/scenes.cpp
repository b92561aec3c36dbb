#include "bench/scenes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <numbers>
#include <utility>

#include "bench/english.h"
#include "coach/access/access.h"
#include "coach/pots/pot_chance.h"
#include "coach/pots/way.h"
#include "engine/simulate/simulate.h"

namespace ahead::bench {
namespace {

using engine::Vec2;

struct Played {
  std::vector<Vec2> balls;
  engine::Strike strike;
};

/// One memory for all shots, as a planner keeps it; it is used on one thread.
const engine::Shot& play(const Played& played) {
  static engine::Simulation simulation(english());
  return simulation.play(played.balls, played.strike);
}

Scene scene_of(std::vector<Played> shots) {
  const std::size_t count = shots.size();
  return {.shots = count, .events = [shots = std::move(shots)](std::size_t i) {
            return play(shots[i]).events.size();
          }};
}

/// Balls of a clearance; the cue ball first. The first eight are those of mid-game.
constexpr std::array<Vec2, 16> spread{{{0.62, 0.95},
                                       {0.30, 1.52},
                                       {0.71, 1.31},
                                       {0.22, 0.74},
                                       {0.51, 1.66},
                                       {0.80, 0.44},
                                       {0.38, 0.31},
                                       {0.13, 1.18},
                                       {0.78, 1.70},
                                       {0.10, 1.62},
                                       {0.63, 0.18},
                                       {0.12, 0.16},
                                       {0.84, 0.98},
                                       {0.45, 1.24},
                                       {0.11, 0.48},
                                       {0.55, 0.58}}};

std::vector<Vec2> first_of_spread(std::size_t count) {
  return {spread.begin(), spread.begin() + static_cast<std::ptrdiff_t>(count)};
}

/// At ball `target`, a little off its middle; thickness, spin and pace vary with `turn`.
Played at_ball(std::vector<Vec2> balls, std::size_t target, std::size_t turn) {
  const Vec2 line = balls[target] - balls[0];
  const auto t = static_cast<double>(turn);
  return {std::move(balls),
          {.aim_rad = angle_rad(line) + 0.05 * std::sin(2.4 * t),
           .elevation_rad = 0.03 + 0.03 * std::cos(1.7 * t),
           .side = 0.25 * std::sin(0.9 * t),
           .height = 0.35 * std::cos(1.3 * t),
           .cue_speed_mps = 0.8 + 0.5 * (1 + std::sin(3.1 * t))}};
}

bool stays_on_table(const engine::Shot& shot) {
  return std::ranges::none_of(shot.endings, &engine::Ending::off_table);
}

bool meets_a_ball(const engine::Shot& shot) {
  return std::ranges::any_of(shot.events, [](const engine::Event& event) {
    return event.kind == engine::EventKind::ball_ball;
  });
}

/// The touches that `ahead shot` tries.
std::vector<engine::Strike> grid_of_touches() {
  std::vector<engine::Strike> touches;
  for (const double height : {-0.40, -0.25, -0.10, 0.0, 0.15, 0.30}) {
    for (const double side : {0.0, -0.25, 0.25}) {
      for (const double speed_mps : {0.6, 0.9, 1.35, 2.0, 2.8}) {
        touches.push_back({.side = side, .height = height, .cue_speed_mps = speed_mps});
      }
    }
  }
  return touches;
}

}  // namespace

void require(bool right, const char* what) {
  if (right) return;
  std::fprintf(stderr, "benchmark gives a wrong answer: %s\n", what);
  std::exit(1);
}

Scene clearance_shots() {
  std::vector<Played> shots;
  for (std::size_t count = 4; count <= 8; ++count) {
    for (std::size_t target = 1; target < count; ++target) {
      shots.push_back(at_ball(first_of_spread(count), target, shots.size()));
    }
  }
  require(shots.size() == 25, "25 shots in the mix");
  require(std::ranges::all_of(shots, [](auto& p) { return stays_on_table(play(p)); }),
          "all on the table");
  require(std::ranges::count_if(shots, [](auto& p) { return meets_a_ball(play(p)); }) >= 20,
          "most of the shots meet a ball");
  return scene_of(std::move(shots));
}

Scene break_shot() {
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
  const engine::Shot& shot = play(p);
  std::size_t moved = 0;
  for (std::size_t i = 1; i < balls.size(); ++i) {
    moved += norm(plan(shot.endings[i].position) - balls[i]) > 0.02 ? 1 : 0;
  }
  require(moved >= 12, "the break spreads the rack");
  return scene_of({p});
}

Scene leave_grid() {
  constexpr int ball = 2;
  constexpr int pocket = static_cast<int>(engine::PocketName::top_right);
  coach::Layout layout{.table = english().table(), .to_play = coach::ToPlay::red};
  for (const Vec2 at : first_of_spread(6)) {
    const bool cue = layout.balls.empty();
    layout.balls.push_back({.id = cue ? "cue" : "red-" + std::to_string(layout.balls.size()),
                            .colour = cue ? coach::Colour::cue : coach::Colour::red,
                            .at = at});
  }
  const auto scene = std::make_shared<coach::Scene>(
      coach::scene_of(layout, layout.to_play, *coach::player_preset("club")));
  const coach::Position position = coach::position_of(layout);
  const auto ways = coach::ways_of(*scene, position, ball);
  const auto way = std::ranges::find(ways, pocket, &coach::Way::pocket);
  require(way != ways.end() && way->blockers == 0, "the ball of the grid goes");

  const auto played = [balls = first_of_spread(6), scene, position,
                       gates = way->gates](engine::Strike touch) -> const engine::Shot* {
    const engine::Table& table = english().table();
    const auto level = coach::aim_through(table, balls[0], balls[ball], gates, touch);
    if (!level) return nullptr;
    touch.aim_rad = level->aim.strike.aim_rad;
    const coach::Access reached = coach::access(*scene, position, touch);
    if (reached.blocked) return nullptr;
    touch.elevation_rad = reached.elevation_rad;
    const auto raised = coach::aim_through(table, balls[0], balls[ball], gates, touch);
    if (!raised) return nullptr;
    return &play({balls, raised->aim.strike});
  };
  // A touch that cannot reach the ball costs less than a shot, and would flatter the rate.
  auto touches = grid_of_touches();
  std::erase_if(touches, [&](const auto& touch) {
    const engine::Shot* shot = played(touch);
    return !shot || shot->endings[ball].pocket != pocket;
  });
  require(touches.size() >= 60, "most of the 90 touches pot the ball");
  return {.shots = touches.size(), .events = [played, touches = std::move(touches)](std::size_t i) {
            return played(touches[i])->events.size();
          }};
}

Scene among_balls(std::size_t balls) {
  std::vector<Played> shots;
  for (std::size_t turn = 0; turn < 12; ++turn) {
    shots.push_back(at_ball(first_of_spread(balls), 1 + turn % 3, turn));
  }
  return scene_of(std::move(shots));
}

const std::vector<NamedScene>& named_scenes() {
  static const std::vector<NamedScene> scenes{
      {"clearance_shots", clearance_shots}, {"leave_grid", leave_grid}, {"break", break_shot}};
  return scenes;
}

}  // namespace ahead::bench
