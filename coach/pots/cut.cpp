#include "coach/pots/cut.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ahead::coach {

using engine::Vec2;

Cut cut_of(const engine::Table& table, const Contact& contact, Vec2 object) {
  const Vec2 line = object - engine::plan(contact.cue_before.position);
  const Vec2 way = engine::plan(contact.cue_before.velocity);
  const double rad = std::abs(
      std::remainder(engine::angle_rad(line) - engine::angle_rad(way), 2 * std::numbers::pi));
  const double off_m = engine::norm(line) * std::sin(rad);
  const double overlap_m = table.cue_ball.radius_m + table.object_ball.radius_m - off_m;
  const double full_m = 2 * std::min(table.cue_ball.radius_m, table.object_ball.radius_m);
  return {.rad = rad,
          .to_left = engine::cross(way, line) > 0,
          .thickness = std::clamp(overlap_m / full_m, 0.0, 1.0)};
}

}  // namespace ahead::coach
