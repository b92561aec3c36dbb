#include "tests/support/random_shots.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/contact/cushion.h"
#include "engine/simulate/stretch.h"

namespace ahead::test {
namespace {

using engine::Vec2;
constexpr double pi = std::numbers::pi;

/// Plan distance at which two balls on the bed touch.
double touching_m(const engine::Table& table, std::size_t a, std::size_t b) {
  const double r_a = engine::ball_of(table, static_cast<int>(a)).radius_m;
  const double r_b = engine::ball_of(table, static_cast<int>(b)).radius_m;
  return 2 * std::sqrt(r_a * r_b);
}

bool fits(const engine::Table& table, const std::vector<Vec2>& balls, Vec2 place) {
  for (std::size_t i = 0; i < balls.size(); ++i) {
    if (norm(balls[i] - place) < touching_m(table, i, balls.size())) return false;
  }
  const engine::Ball& ball = engine::ball_of(table, static_cast<int>(balls.size()));
  const double reach_m = engine::nose_reach_m(ball, table.nose_height_m);
  return place.x > reach_m && place.x < table.width_m - reach_m && place.y > reach_m &&
         place.y < table.length_m - reach_m;
}

Vec2 anywhere(Dice& dice, const engine::Table& table) {
  return {dice.between(0.03, table.width_m - 0.03), dice.between(0.03, table.length_m - 0.03)};
}

/// Against a cushion, away from the pockets.
Vec2 frozen_to_cushion(Dice& dice, const engine::Table& table, double reach_m) {
  const double x = dice.between(0.2, 0.8) * table.width_m;
  const double y = dice.between(0.15, 0.4) * table.length_m;
  switch (dice.whole(0, 3)) {
    case 0:
      return {x, reach_m};
    case 1:
      return {x, table.length_m - reach_m};
    case 2:
      return {reach_m, y};
    default:
      return {table.width_m - reach_m, y};
  }
}

}  // namespace

std::vector<Vec2> random_layout(Dice& dice, const engine::Table& table, int count) {
  std::vector<Vec2> balls;
  while (static_cast<int>(balls.size()) < count) {
    const std::size_t next = balls.size();
    const engine::Ball& ball = engine::ball_of(table, static_cast<int>(next));
    Vec2 place = anywhere(dice, table);
    const int kind = dice.whole(0, 19);
    if (kind == 0) {
      place =
          frozen_to_cushion(dice, table, engine::nose_reach_m(ball, table.nose_height_m) + 1e-12);
    } else if (kind <= 2 && next > 0) {
      // Frozen, or nearly.
      const auto friend_of = static_cast<std::size_t>(dice.whole(0, static_cast<int>(next) - 1));
      const double gap_m = kind == 1 ? 1e-12 : dice.between(0, 0.003);
      place = balls[friend_of] + (touching_m(table, friend_of, next) + gap_m) *
                                     engine::direction(dice.between(0, 2 * pi));
    }
    if (fits(table, balls, place)) balls.push_back(place);
  }
  return balls;
}

engine::Strike random_strike(Dice& dice, const engine::Table& table) {
  const double off = table.cue.miscue_offset * std::sqrt(dice.between(0, 1));
  const double where = dice.between(0, 2 * pi);
  return {.aim_rad = dice.between(-pi, pi),
          .elevation_rad = dice.whole(0, 2) == 0 ? dice.between(0, pi / 4) : 0.0,
          .side = off * std::cos(where),
          .height = off * std::sin(where),
          // A centre strike sends the ball off at about 1.4 times the cue's speed.
          .cue_speed_mps = dice.between(0.15, 4.3)};
}

RandomShot random_shot(Dice& dice, const engine::Table& table) {
  RandomShot shot{random_layout(dice, table, dice.whole(2, 10)), random_strike(dice, table)};
  if (dice.whole(0, 1) == 0) {
    const auto target =
        static_cast<std::size_t>(dice.whole(1, static_cast<int>(shot.balls.size()) - 1));
    const Vec2 line = shot.balls[target] - shot.balls[0];
    const double window_rad = std::min(1.0, 0.05 / norm(line));
    shot.strike.aim_rad = angle_rad(line) + dice.between(-window_rad, window_rad);
  }
  return shot;
}

}  // namespace ahead::test
