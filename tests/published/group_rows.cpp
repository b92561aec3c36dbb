#include <cmath>
#include <numbers>
#include <vector>

#include "engine/contact/ball_ball.h"
#include "engine/contact/touching_group.h"
#include "tests/published/check_rows.h"

// Rows F: balls that touch.
namespace ahead::test {
namespace {

using namespace engine;  // NOLINT(google-build-using-namespace): the rows speak of nothing else

constexpr double degrees = std::numbers::pi / 180;
constexpr Ball ball{.radius_m = 0.028575, .mass_kg = 0.17};
constexpr double diameter_m = 2 * ball.radius_m;

constexpr BallContact lossless{.restitution = 1, .friction_a = 0, .friction_b = 0};

std::vector<BallState> at_rest(const std::vector<Vec2>& places) {
  std::vector<BallState> states;
  for (const Vec2 place : places) states.push_back({.position = lift(place, ball.radius_m)});
  return states;
}

/// The first ball arrives along x at `v_mps`; all are resolved together.
std::vector<BallState> resolved(const std::vector<Vec2>& places, double v_mps) {
  std::vector<BallState> states = at_rest(places);
  states[0].velocity = {v_mps, 0, 0};
  const std::vector<Ball> balls(states.size(), ball);
  TouchingGroup{}.resolve(states, balls, lossless);
  return states;
}

std::vector<BallState> split_of_two() {
  const Vec2 along = diameter_m * direction(30 * degrees);
  return resolved({{0, 0}, along, {along.x, -along.y}}, 1);
}

std::vector<BallState> line_of_three() {
  return resolved({{0, 0}, {diameter_m, 0}, {2 * diameter_m, 0}}, 1);
}

/// Cue ball, then a triangle of fifteen with its apex towards it, row by row.
std::vector<BallState> break_of_fifteen() {
  std::vector<Vec2> places{{0, 0}};
  for (int row = 0; row < 5; ++row) {
    for (int i = 0; i <= row; ++i) {
      places.push_back({diameter_m * (1 + row * std::sqrt(3.0) / 2), diameter_m * (i - 0.5 * row)});
    }
  }
  return resolved(places, 10);
}

/// One pair at a time, the middle ball first struck and then striking.
double last_of_three_in_sequence() {
  const BallContact contact{.restitution = 0.95, .friction_a = 0, .friction_b = 0};
  std::vector<BallState> states = at_rest({{0, 0}, {diameter_m, 0}, {2 * diameter_m, 0}});
  states[0].velocity = {1, 0, 0};
  states[1] = collided(states[0], ball, states[1], ball, contact).second;
  return collided(states[1], ball, states[2], ball, contact).second.velocity.x;
}

}  // namespace

Answers group_answers() {
  return {
      {"F03a", [] { return split_of_two()[0].velocity.x; }},
      {"F03b", [] { return norm(split_of_two()[1].velocity); }},
      {"F04", last_of_three_in_sequence},
      {"F05a", [] { return line_of_three()[0].velocity.x; }},
      {"F05b", [] { return line_of_three()[1].velocity.x; }},
      {"F05c", [] { return line_of_three()[2].velocity.x; }},
      {"F06", [] { return -break_of_fifteen()[0].velocity.x; }},
      // The corners of the back row are the eleventh and the fifteenth of the triangle.
      {"F07", [] { return norm(break_of_fifteen()[11].velocity); }},
      {"F10", [] { return -angle_rad(plan(break_of_fifteen()[11].velocity)) / degrees; }},
  };
}

}  // namespace ahead::test
