#include "coach/access/least_elevation.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace ahead::coach {
namespace {

using engine::Table;
using engine::Vec2;

constexpr double cue_length_m = 1.45;
constexpr double butt_radius_m = 0.0145;
constexpr double clear_m = 0.0015;
constexpr double rail_top_above_nose_m = 0.010;
constexpr double rail_top_behind_nose_m = 0.045;
constexpr double rail_width_m = 0.130;

/// The cue's centre line in the upright plane of the aim, raised by some elevation.
struct Line {
  double height_m;  ///< of the line over the cue ball's centre
  double tan, cos;
  double tip_radius_m;

  [[nodiscard]] double height_at(double behind_m) const { return height_m + behind_m * tan; }
  [[nodiscard]] double radius_at(double behind_m) const {
    const double along = std::min(1.0, behind_m / cos / cue_length_m);
    return tip_radius_m + along * (butt_radius_m - tip_radius_m);
  }
};

/// Distance from the cue ball back to where the aim line leaves the playing area.
double to_nose_m(const Table& table, Vec2 from, Vec2 back) {
  double least = std::numeric_limits<double>::infinity();
  if (back.x > 0) least = std::min(least, (table.width_m - from.x) / back.x);
  if (back.x < 0) least = std::min(least, -from.x / back.x);
  if (back.y > 0) least = std::min(least, (table.length_m - from.y) / back.y);
  if (back.y < 0) least = std::min(least, -from.y / back.y);
  return std::max(0.0, least);
}

bool clears_rail(const Line& line, double nose_m, double nose_height_m) {
  // The nearest point of the ball's own front is one radius off; a nose nearer than that still
  // stands under the cue.
  const std::array<std::array<double, 2>, 3> edges{
      {{nose_m, nose_height_m},
       {nose_m + rail_top_behind_nose_m, nose_height_m + rail_top_above_nose_m},
       {nose_m + rail_width_m, nose_height_m + rail_top_above_nose_m}}};
  return std::ranges::all_of(edges, [&](const auto& edge) {
    const auto [behind_m, top_m] = edge;
    if (behind_m > cue_length_m * line.cos) return true;
    return (line.height_at(behind_m) - top_m) * line.cos >= line.radius_at(behind_m) + clear_m;
  });
}

bool clears_ball(const Line& line, double behind_m, double beside_m, double ball_radius_m) {
  if (behind_m <= 0 || behind_m > cue_length_m * line.cos + ball_radius_m) return true;
  const double least = ball_radius_m + line.radius_at(behind_m) + clear_m;
  if (std::abs(beside_m) >= least) return true;
  const double above = (line.height_at(behind_m) - ball_radius_m) * line.cos;
  return above >= std::sqrt(least * least - beside_m * beside_m);
}

}  // namespace

double least_elevation_rad(const Table& table, Vec2 cue_ball, std::span<const Vec2> others,
                           const engine::Strike& strike) {
  const Vec2 back = -engine::direction(strike.aim_rad);
  const Vec2 right = -engine::left_of(engine::direction(strike.aim_rad));
  const double out = table.cue_ball.radius_m + table.cue.tip_radius_m;
  const double nose_m = to_nose_m(table, cue_ball, back);
  const auto clears = [&](double elevation_rad) {
    const double cos = std::cos(elevation_rad);
    const Line line{.height_m = table.cue_ball.radius_m + strike.height * out / cos,
                    .tan = std::tan(elevation_rad),
                    .cos = cos,
                    .tip_radius_m = table.cue.tip_width_m / 2};
    if (!clears_rail(line, nose_m, table.nose_height_m)) return false;
    return std::ranges::all_of(others, [&](Vec2 other) {
      const Vec2 from = other - cue_ball;
      return clears_ball(line, engine::dot(from, back),
                         engine::dot(from, right) - strike.side * out, table.object_ball.radius_m);
    });
  };
  if (clears(0)) return 0;
  double blocked = 0;
  double clear = std::numbers::pi / 2;
  while (clear - blocked > 1e-4) {
    const double middle = 0.5 * (blocked + clear);
    (clears(middle) ? clear : blocked) = middle;
  }
  return clear;
}

}  // namespace ahead::coach
