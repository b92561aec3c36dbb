#include "engine/simulate/path.h"

#include <cmath>

namespace ahead::engine {

Path path_of(Phase phase, const BallState& state, const Ball& ball, const Cloth& cloth,
             double duration_s) {
  Path path{.p = state.position, .duration_s = duration_s};
  path.moves = phase == Phase::rolling || phase == Phase::sliding || phase == Phase::airborne;
  if (!path.moves) return path;
  const Vec3 a = acceleration(phase, state, ball, cloth);
  path.v = state.velocity;
  path.half_a = 0.5 * a;
  path.longest_way_m = duration_s * (norm(path.v) + duration_s * norm(path.half_a));
  path.airborne = phase == Phase::airborne;
  if (path.airborne) return path;
  // A parabola lies within the triangle of its ends and the crossing of its end tangents.
  const Vec2 turn = plan(path.p) + 0.5 * duration_s * plan(path.v);
  const Vec2 end = plan(path.p + duration_s * (path.v + duration_s * path.half_a));
  path.box = with(box_of(plan(path.p), end), turn);

  const Vec2 v = plan(path.v);
  path.speed_mps = norm(v);
  // A ball that starts from rest goes where it is pushed.
  path.along = path.speed_mps > 0 ? v / path.speed_mps : unit(plan(a));
  path.gain_mps2 = dot(plan(a), path.along);
  const bool in_line = std::abs(cross(plan(a), path.along)) <= 1e-13 * norm(plan(a));
  const bool onward = path.speed_mps + path.gain_mps2 * duration_s >= -1e-12;
  path.straight = in_line && onward;
  path.reach_m = duration_s * (path.speed_mps + 0.5 * path.gain_mps2 * duration_s);
  return path;
}

Path rest_of(const Path& path, double t_s) {
  Path rest = path;
  rest.p = path.p + t_s * (path.v + t_s * path.half_a);
  rest.v = path.v + (2 * t_s) * path.half_a;
  rest.duration_s = path.duration_s - t_s;
  rest.longest_way_m = rest.duration_s * (norm(rest.v) + rest.duration_s * norm(rest.half_a));
  if (path.straight) {
    rest.speed_mps = path.speed_mps + path.gain_mps2 * t_s;
    rest.reach_m = rest.duration_s * (rest.speed_mps + 0.5 * rest.gain_mps2 * rest.duration_s);
  }
  return rest;
}

double time_of(const Path& path, double distance_m) {
  if (distance_m <= 0) return 0;
  const double square = path.speed_mps * path.speed_mps + 2 * path.gain_mps2 * distance_m;
  return 2 * distance_m / (path.speed_mps + std::sqrt(square > 0 ? square : 0.0));
}

}  // namespace ahead::engine
