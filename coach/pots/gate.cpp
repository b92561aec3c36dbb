#include "coach/pots/gate.h"

#include <algorithm>
#include <cmath>

#include "engine/motion/motion.h"
#include "engine/simulate/next_contact.h"
#include "engine/simulate/off_nose.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

/// Jaws can turn a ball a few times; after this many contacts it does not drop any more.
constexpr int most_contacts = 8;
/// A ball that has met a cushion, goes away from the pocket and is this far from it is out, m.
constexpr double left_jaws_m = 0.13;

/// An object ball sent off alone: whether it drops into `pocket` without touching an obstacle.
bool drops(const engine::Playfield& field, engine::BallState state, int pocket,
           std::span<const Vec2> obstacles) {
  const engine::Table& table = field.table();
  const engine::Ball& ball = table.object_ball;
  const Vec2 hole = table.pockets[static_cast<std::size_t>(pocket)].centre;
  for (int contacts = 0; contacts < most_contacts;) {
    const engine::Phase phase = engine::phase_of(state, ball);
    if (phase != engine::Phase::rolling && phase != engine::Phase::sliding) return false;
    const double lasts_s = engine::phase_duration_s(phase, state, ball, table.cloth);
    const engine::Path path = engine::path_of(phase, state, ball, table.cloth, lasts_s);
    const engine::NoseContact nose =
        engine::next_nose(path, field.nose(), table, ball, field.object_ball().reach_m);
    const engine::PocketEntry entry = engine::next_pocket(path, table, ball);
    const double next_s = std::min({lasts_s, nose.t_s, entry.t_s});
    for (const Vec2 obstacle : obstacles) {
      const engine::Vec3 standing = engine::lift(obstacle, ball.radius_m);
      if (engine::next_meeting(path, standing, 2 * ball.radius_m) < next_s) return false;
    }
    if (entry.t_s <= next_s) return entry.pocket == pocket;
    if (next_s == lasts_s) {
      state = engine::at_phase_end(phase, state, ball, table.cloth, lasts_s);
      continue;
    }
    state = engine::advance(phase, state, ball, table.cloth, next_s);
    state = engine::off_nose(state, field.object_ball(), nose.nose, table);
    const Vec2 to_hole = hole - engine::plan(state.position);
    const bool leaves = engine::dot(to_hole, engine::plan(state.velocity)) < 0;
    if (leaves && engine::norm(to_hole) > left_jaws_m) return false;
    ++contacts;
  }
  return false;
}

/// Whether the pocket's mouth can be seen at all from the ball: further round than this from its
/// axis a ball meets the near jaw full.
bool in_sight(const engine::Table& table, Vec2 ball, const engine::Pocket& pocket) {
  const Vec2 middle{table.width_m / 2, table.length_m / 2};
  const Vec2 inward = middle - pocket.centre;
  const bool side = std::abs(inward.y) < std::abs(inward.x) / 4;
  const Vec2 axis =
      side ? Vec2{inward.x, 0} : Vec2{std::copysign(1.0, inward.x), std::copysign(1.0, inward.y)};
  constexpr double flattest = 0.3;  // 73 degrees off the axis
  return engine::dot(engine::unit(ball - pocket.centre), engine::unit(axis)) > flattest;
}

}  // namespace

std::optional<Gate> find_gate(const engine::Playfield& field, Vec2 ball, int pocket,
                              double speed_mps, std::span<const Vec2> obstacles,
                              const GateCare& care) {
  const engine::Table& table = field.table();
  const engine::Pocket& hole = table.pockets[static_cast<std::size_t>(pocket)];
  if (!in_sight(table, ball, hole)) return std::nullopt;
  const double radius_m = table.object_ball.radius_m;
  const auto drops_at = [&](double direction_rad) {
    return drops(field,
                 {.position = engine::lift(ball, radius_m),
                  .velocity = engine::lift(speed_mps * engine::direction(direction_rad))},
                 pocket, obstacles);
  };

  const Vec2 to = hole.centre - ball;
  const double straight_rad = engine::angle_rad(to);
  // A jaw can lead a ball in from a little outside the fall; nothing drops from further out.
  const double wide = hole.fall_radius_m + radius_m;
  const double spread_rad = std::atan2(wide, std::max(wide, engine::norm(to)));
  const auto scanned = [&](int i) {
    return straight_rad + spread_rad * (2.0 * i / (care.scan_steps - 1) - 1.0);
  };
  int best_from = 0;
  int best_count = 0;
  int count = 0;
  for (int i = 0; i < care.scan_steps; ++i) {
    count = drops_at(scanned(i)) ? count + 1 : 0;
    if (count > best_count) {
      best_count = count;
      best_from = i - count + 1;
    }
  }
  if (best_count == 0) return std::nullopt;

  const auto edge = [&](double in, double out) {
    while (std::abs(out - in) > care.edge_rad) {
      const double middle = 0.5 * (in + out);
      (drops_at(middle) ? in : out) = middle;
    }
    return in;
  };
  const int last = best_from + best_count - 1;
  return Gate{.from_rad = edge(scanned(best_from), scanned(best_from - 1)),
              .to_rad = edge(scanned(last), scanned(last + 1))};
}

std::optional<Gate> gate_at(const PacedGates& gates, double speed_mps) {
  std::size_t above = 0;
  while (above < gates.size() && gate_paces_mps[above] < speed_mps) ++above;
  if (above == 0) return gates.front() ? gates.front() : gates[1];
  if (above == gates.size()) return gates.back();
  const auto& slower = gates[above - 1];
  const auto& faster = gates[above];
  if (!slower || !faster) return faster;
  const double part =
      (speed_mps - gate_paces_mps[above - 1]) / (gate_paces_mps[above] - gate_paces_mps[above - 1]);
  return Gate{.from_rad = std::lerp(slower->from_rad, faster->from_rad, part),
              .to_rad = std::lerp(slower->to_rad, faster->to_rad, part)};
}

}  // namespace ahead::coach
