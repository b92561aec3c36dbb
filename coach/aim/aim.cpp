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

namespace {

/// A try at an aim: the contact, the target as it is then, and by how much the ball passes it.
struct Attempt {
  double aim_rad = 0;
  Contact contact;
  Vec2 target;
  double miss_m = 0;
};

/// The ball must go towards the target, not away from it on the same line.
bool goes_to(const Table& table, Vec2 object, const Attempt& attempt) {
  const Vec2 rolls = engine::direction(rolling_direction_rad(table, attempt.contact.object_after));
  return engine::dot(rolls, attempt.target - object) > 0;
}

}  // namespace

std::optional<Aim> aim_at(const Table& table, Vec2 cue, Vec2 object, Vec2 target,
                          const Strike& touch_and_pace) {
  return aim_at(
      table, cue, object, target, [target](const engine::BallState&) { return target; },
      touch_and_pace);
}

std::optional<Aim> aim_at(const Table& table, Vec2 cue, Vec2 object, Vec2 target,
                          const TargetOf& target_of, const Strike& touch_and_pace,
                          std::optional<double> near_rad) {
  const Vec2 ghost = ghost_ball(table, object, target);
  const Vec2 line = ghost - cue;
  if (engine::dot(line, target - object) <= 0) return std::nullopt;

  const auto with_aim = [&](double aim_rad) {
    Strike strike = touch_and_pace;
    strike.aim_rad = aim_rad;
    return strike;
  };
  const auto contact_at = [&](double aim_rad) {
    return first_contact(table, cue, object, with_aim(aim_rad));
  };
  const auto attempt_at = [&](double aim_rad,
                              const std::optional<Contact>& contact) -> std::optional<Attempt> {
    if (!contact) return std::nullopt;
    const auto to = target_of(contact->object_after);
    if (!to) return std::nullopt;
    return Attempt{.aim_rad = aim_rad,
                   .contact = *contact,
                   .target = *to,
                   .miss_m = passes_by_m(table, contact->object_after, *to)};
  };
  // The finest cut lies within asin(touching / distance) of the ball's centre; steps stay inside.
  double aim_rad =
      near_rad.value_or(engine::angle_rad(line) -
                        engine::deflection_rad(touch_and_pace.side, table.cue_ball, table.cue));
  auto contact = contact_at(aim_rad);
  // A cut that just misses for lack of swerve or deflection: come a little fuller.
  const double to_full = std::remainder(engine::angle_rad(object - cue) - engine::angle_rad(line),
                                        2 * std::numbers::pi);
  for (int i = 0; i < 4 && !contact; ++i) {
    aim_rad += 0.1 * to_full;
    contact = contact_at(aim_rad);
  }
  auto best = attempt_at(aim_rad, contact);
  if (!best) return std::nullopt;

  // d(object direction)/d(aim) is about -distance / touching: a first slope for the secant.
  double slope =
      engine::norm(target - object) * engine::norm(object - cue) / engine::norm(object - ghost);
  for (int i = 0; i < 12 && std::abs(best->miss_m) > 1e-6; ++i) {
    const double step = std::clamp(-best->miss_m / slope, -0.02, 0.02);
    const auto next = attempt_at(best->aim_rad + step, contact_at(best->aim_rad + step));
    if (!next) return std::nullopt;
    if (next->miss_m != best->miss_m) slope = (next->miss_m - best->miss_m) / step;
    best = next;
  }
  if (std::abs(best->miss_m) > 1e-4 || !goes_to(table, object, *best)) return std::nullopt;
  return Aim{with_aim(best->aim_rad), best->contact};
}

}  // namespace ahead::coach
