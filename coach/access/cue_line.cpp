#include "coach/access/cue_line.h"

#include <algorithm>
#include <cmath>

namespace ahead::coach {

using engine::Vec2;
using engine::Vec3;

double CueLine::radius_at(double from_ball_m) const {
  const double tapering = length_m - parallel_m;
  const double along = (from_ball_m - ball_radius_m - parallel_m) / tapering;
  return tip_radius_m + std::clamp(along, 0.0, 1.0) * (butt_radius_m - tip_radius_m);
}

CueLine cue_line(const engine::Table& table, const OwnCue& cue, double side, double height) {
  const double out_m = table.cue_ball.radius_m + table.cue.tip_radius_m;
  return {.right_m = side * out_m,
          .above_m = height * out_m,
          .ball_radius_m = table.cue_ball.radius_m,
          .tip_radius_m = table.cue.tip_width_m / 2,
          .butt_radius_m = cue.butt_width_m / 2,
          .length_m = cue.length_m,
          .parallel_m = cue.parallel_m};
}

double elevation_over_ball(const CueLine& line, Vec3 at, double radius_m) {
  if (at.x <= 0 || at.x > line.end_m() + radius_m) return 0;
  const double beside = std::abs(at.y - line.right_m);
  const double kept = radius_m + cue_clear_m;
  if (beside >= kept + line.butt_radius_m) return 0;
  const double slope = (line.butt_radius_m - line.tip_radius_m) / (line.length_m - line.parallel_m);
  const double square = kept * std::sqrt(1 + slope * slope);
  // Seen from the side the ball lies `far` off at the angle `down`, and the line passes over it by
  // far sin(elevation - down) + above, which must be what the cue's thickness there leaves.
  const double far = std::hypot(at.x, at.z);
  const double down = std::atan2(at.z, at.x);
  double elevation = 0;
  constexpr int settles_in = 4;  // the thickness hardly hangs on the elevation
  for (int i = 0; i < settles_in; ++i) {
    const double along = far * std::cos(elevation - down);
    const double apart = line.radius_at(along) + square;
    if (beside >= apart) return elevation;
    const double wanted = std::sqrt(apart * apart - beside * beside) - line.above_m;
    if (wanted >= far) return never_rad;
    elevation = down + std::asin(std::max(-1.0, wanted / far));
    if (elevation <= 0) return 0;
  }
  return elevation;
}

namespace {

/// The cue runs beside the edge. The cue thickens as it goes back, so the place that asks for most
/// can lie anywhere: places are asked at growing distances from the tip.
double elevation_beside_edge(const CueLine& line, Vec2 from, Vec2 to, double z_m) {
  const Vec2 near = from.x < to.x ? from : to;
  const Vec2 far = from.x < to.x ? to : from;
  const double first = std::max(near.x, line.ball_radius_m);
  const double last = std::min(far.x, line.end_m());
  if (first > last) return 0;
  const double lean = far.x > near.x ? (far.y - near.y) / (far.x - near.x) : 0;
  const auto at = [&](double x) {
    return elevation_over_ball(line, {x, near.y + lean * (x - near.x), z_m}, 0);
  };
  constexpr int places = 24;
  const double growth = std::pow(last / first, 1.0 / places);
  double most = 0;
  double x = first;
  for (int i = 0; i <= places; ++i, x *= growth) most = std::max(most, at(x));
  return most;
}

}  // namespace

double elevation_over_edge(const CueLine& line, Vec2 from, Vec2 to, double z_m) {
  const Vec2 along = to - from;
  const double least = std::min(from.y, to.y) - line.right_m;
  const double most = std::max(from.y, to.y) - line.right_m;
  const double thick = line.butt_radius_m + cue_clear_m;
  if (least > thick || most < -thick) return 0;
  if (least > 0 || most < 0 || along.y == 0) return elevation_beside_edge(line, from, to, z_m);
  const double behind = from.x + (line.right_m - from.y) / along.y * along.x;
  if (behind <= 0) return 0;
  if (behind > line.end_m()) return elevation_beside_edge(line, from, to, z_m);
  // With T = tan(elevation) the line passes over the edge by
  //   gap = behind T + above sqrt(1 + T^2) - z,
  // and the two lines are gap / sqrt(1 + (T / across)^2) apart. Newton from the level cue.
  const double across = std::abs(along.y) / engine::norm(along);
  double t = 0;
  constexpr int most_steps = 12;
  for (int i = 0; i < most_steps; ++i) {
    const double secant = std::sqrt(1 + t * t);
    const double skew = std::sqrt(1 + t * t / (across * across));
    const double apart = line.radius_at(behind * secant) + cue_clear_m;
    const double excess = behind * t + line.above_m * secant - z_m - apart * skew;
    if (t == 0 && excess >= 0) return 0;
    if (std::abs(excess) < 1e-9) break;
    const double slope = behind + line.above_m * t / secant - apart * t / (across * across * skew);
    if (slope <= 0) return never_rad;
    t = std::max(0.0, t - excess / slope);
  }
  return std::atan(t);
}

double underside_m(const CueLine& line, double behind_m, double elevation_rad) {
  const double secant = 1 / std::cos(elevation_rad);
  return behind_m * std::tan(elevation_rad) +
         (line.above_m - line.radius_at(behind_m * secant)) * secant;
}

double elevation_for_underside(const CueLine& line, double behind_m, double z_m) {
  // behind sin(e) + (above - radius) = z cos(e), with the radius at a near elevation.
  const double far = std::hypot(behind_m, z_m);
  double elevation = 0;
  for (int i = 0; i < 3; ++i) {
    const double radius = line.radius_at(behind_m / std::cos(elevation));
    const double ratio = std::clamp((radius - line.above_m) / far, -1.0, 1.0);
    elevation = std::atan2(z_m, behind_m) + std::asin(ratio);
  }
  return elevation;
}

}  // namespace ahead::coach
