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

namespace {

/// Room beside the cue's own thickness that a ball of `radius_m` wants along a cone.
double room_m(const CueLine& line, double radius_m) {
  const double slope = (line.butt_radius_m - line.tip_radius_m) / (line.length_m - line.parallel_m);
  return (radius_m + cue_clear_m) * std::sqrt(1 + slope * slope);
}

}  // namespace

double elevation_over_ball(const CueLine& line, Vec3 at, double radius_m) {
  if (at.x <= 0 || at.x > line.end_m() + radius_m) return 0;
  const double beside = std::abs(at.y - line.right_m);
  if (beside >= radius_m + cue_clear_m + line.butt_radius_m) return 0;
  const double room = room_m(line, radius_m);
  // Seen from the side the ball lies `far` off at the angle `down`, and the line passes over it by
  // far sin(elevation - down) + above, which must be what the cue's thickness there leaves.
  const double far = std::hypot(at.x, at.z);
  const double down = std::atan2(at.z, at.x);
  double elevation = 0;
  constexpr int settles_in = 4;  // the thickness hardly hangs on the elevation
  for (int i = 0; i < settles_in; ++i) {
    const double along = far * std::cos(elevation - down);
    const double apart = line.radius_at(along) + room;
    if (beside >= apart) return elevation;
    const double wanted = std::sqrt(apart * apart - beside * beside) - line.above_m;
    if (wanted >= far) return never_rad;
    elevation = down + std::asin(std::max(-1.0, wanted / far));
    if (elevation <= 0) return 0;
  }
  return elevation;
}

namespace {

/// Whether the cue, raised by an angle of this sine and cosine, passes over a point that wants
/// `room` beside its thickness.
bool passes_over(const CueLine& line, Vec3 at, double room, double sin, double cos) {
  const double beside = at.y - line.right_m;
  const double apart = line.radius_at(at.x * cos + at.z * sin) + room;
  const double over = at.x * sin - at.z * cos + line.above_m;
  return over > 0 && over * over + beside * beside >= apart * apart;
}

/// The cue runs beside the edge. The cue thickens as it goes back, so the place that asks for most
/// can lie anywhere: where the edge is near enough, places are asked at growing distances from the
/// tip.
double elevation_beside_edge(const CueLine& line, Vec2 from, Vec2 to, double z_m) {
  const Vec2 near = from.x < to.x ? from : to;
  const Vec2 far = from.x < to.x ? to : from;
  double first = std::max(near.x, line.ball_radius_m);
  double last = std::min(far.x, line.end_m());
  const double lean = far.x > near.x ? (far.y - near.y) / (far.x - near.x) : 0;
  if (lean != 0) {
    const double crosses = near.x + (line.right_m - near.y) / lean;
    const double near_for = (line.butt_radius_m + cue_clear_m) / std::abs(lean);
    first = std::max(first, crosses - near_for);
    last = std::min(last, crosses + near_for);
  }
  if (first > last) return 0;
  constexpr double widest = 0.17;  // as a logarithm: 24 places along a whole cue
  const double length = std::log(last / first);
  const int places = std::max(1, static_cast<int>(std::ceil(length / widest)));
  const double growth = std::exp(length / places);
  const double room = room_m(line, 0);
  double most = 0;
  double sin = 0;
  double cos = 1;
  double x = first;
  for (int i = 0; i <= places; ++i, x *= growth) {
    const Vec3 at{x, near.y + lean * (x - near.x), z_m};
    if (passes_over(line, at, room, sin, cos)) continue;
    most = std::max(most, elevation_over_ball(line, at, 0));
    if (most == never_rad) break;
    sin = std::sin(most);
    cos = std::cos(most);
  }
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
