#include "engine/contact/overlap.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/equipment/surfaces.h"

namespace ahead::engine {
namespace {

/// Raises a ball by `height_m`, for which it pays with speed. One that cannot stays down.
void raise(BallState& state, double height_m) {
  const Vec2 v = plan(state.velocity);
  const double left = 1 - 2 * gravity_mps2 * height_m / dot(v, v);
  if (!(left > 0)) return;
  state.velocity = lift(std::sqrt(left) * v, state.velocity.z);
  state.position.z += height_m;
}

}  // namespace

void part(std::span<BallState> states, std::span<const Ball> balls) {
  constexpr double steep = 25;
  std::array<Vec2, most_balls> shifts;
  std::array<double, most_balls> rises_m;
  std::fill_n(shifts.begin(), states.size(), Vec2{});
  std::fill_n(rises_m.begin(), states.size(), 0.0);
  for (std::size_t i = 0; i < states.size(); ++i) {
    for (std::size_t j = i + 1; j < states.size(); ++j) {
      const Vec3 line = states[j].position - states[i].position;
      const double overlap = balls[i].radius_m + balls[j].radius_m - norm(line);
      if (overlap <= 0) continue;
      const double level_m = norm(plan(line));
      if (norm(line) >= steep * level_m) {
        rises_m[line.z > 0 ? j : i] += overlap;
        continue;
      }
      const Vec2 shift = (0.5 * overlap * norm(line) / level_m) * unit(plan(line));
      shifts[i] = shifts[i] - shift;
      shifts[j] = shifts[j] + shift;
    }
  }
  for (std::size_t i = 0; i < states.size(); ++i) {
    states[i].position += lift(shifts[i]);
    if (rises_m[i] > 0) raise(states[i], rises_m[i]);
  }
}

}  // namespace ahead::engine
