#include "engine/contact/overlap.h"

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
  std::array<Vec3, most_balls> shifts;  // upwards: by how much to raise
  for (std::size_t i = 0; i < states.size(); ++i) {
    for (std::size_t j = i + 1; j < states.size(); ++j) {
      const Vec3 line = states[j].position - states[i].position;
      const double overlap = balls[i].radius_m + balls[j].radius_m - norm(line);
      if (overlap <= 0) continue;
      const double level_m = norm(plan(line));
      if (norm(line) >= steep * level_m) {
        shifts[line.z > 0 ? j : i].z += overlap;
        continue;
      }
      const Vec2 shift = (0.5 * overlap * norm(line) / level_m) * unit(plan(line));
      shifts[i] -= lift(shift);
      shifts[j] += lift(shift);
    }
  }
  for (std::size_t i = 0; i < states.size(); ++i) {
    states[i].position += lift(plan(shifts[i]));
    if (shifts[i].z > 0) raise(states[i], shifts[i].z);
  }
}

}  // namespace ahead::engine
