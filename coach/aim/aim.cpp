#include "coach/aim/aim.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ahead::coach {

using engine::Strike;
using engine::Table;
using engine::Vec2;

Vec2 ghost_ball(const Table& table, Vec2 object, Vec2 target) {
  const double distance_m = 2 * std::sqrt(table.cue_ball.radius_m * table.object_ball.radius_m);
  return object - distance_m * engine::unit(target - object);
}

std::optional<Aim> aim_at(const Table& table, Vec2 cue, Vec2 object, Vec2 target,
                          const Strike& touch_and_pace) {
  const Vec2 line = ghost_ball(table, object, target) - cue;
  if (engine::dot(line, target - object) <= 0) return std::nullopt;

  const auto with_aim = [&](double aim_rad) {
    Strike strike = touch_and_pace;
    strike.aim_rad = aim_rad;
    return strike;
  };
  // The finest cut lies within asin(touching / distance) of the ball's centre; steps stay inside.
  double aim_rad = engine::angle_rad(line) -
                   engine::deflection_rad(touch_and_pace.side, table.cue_ball, table.cue);
  auto contact = first_contact(table, cue, object, with_aim(aim_rad));
  // A cut that just misses for lack of swerve or deflection: come a little fuller.
  const double to_full = std::remainder(engine::angle_rad(object - cue) - engine::angle_rad(line),
                                        2 * std::numbers::pi);
  for (int i = 0; i < 4 && !contact; ++i) {
    aim_rad += 0.1 * to_full;
    contact = first_contact(table, cue, object, with_aim(aim_rad));
  }
  if (!contact) return std::nullopt;

  // d(object direction)/d(aim) is about -distance / touching: a first slope for the secant.
  const double distance_m = engine::norm(object - cue);
  const double touching_m = engine::norm(object - ghost_ball(table, object, target));
  const double away_m = engine::norm(target - object);
  double slope = away_m * distance_m / touching_m;
  double miss_m = passes_by_m(table, contact->object_after, target);
  for (int i = 0; i < 12 && std::abs(miss_m) > 1e-6; ++i) {
    const double step = std::clamp(-miss_m / slope, -0.02, 0.02);
    auto next = first_contact(table, cue, object, with_aim(aim_rad + step));
    if (!next) return std::nullopt;
    const double next_miss_m = passes_by_m(table, next->object_after, target);
    if (next_miss_m != miss_m) slope = (next_miss_m - miss_m) / step;
    aim_rad += step;
    contact = next;
    miss_m = next_miss_m;
  }
  if (std::abs(miss_m) > 1e-4) return std::nullopt;
  // The ball must go towards the target, not away from it on the same line.
  const Vec2 rolls = engine::direction(rolling_direction_rad(table, contact->object_after));
  if (engine::dot(rolls, target - object) <= 0) return std::nullopt;
  return Aim{with_aim(aim_rad), *contact};
}

}  // namespace ahead::coach
