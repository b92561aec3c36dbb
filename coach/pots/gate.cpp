#include "coach/pots/gate.h"

#include <algorithm>
#include <cassert>
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
/// To what angle edges are followed from pace to pace, rad: 0.1 mm at 1 m.
constexpr double followed_edge_rad = 1e-4;
/// The fastest pace at which a gate is measured, m/s: harder than anyone pots.
constexpr double fastest_mps = 5.0;

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

/// One ball sent off again and again at one pocket.
struct Roll {
  const engine::Playfield& field;
  Vec2 ball;
  int pocket;
  std::span<const Vec2> obstacles;

  [[nodiscard]] bool drops(double direction_rad, double speed_mps) const {
    return coach::drops(field,
                        {.position = engine::lift(ball, field.table().object_ball.radius_m),
                         .velocity = engine::lift(speed_mps * engine::direction(direction_rad))},
                        pocket, obstacles);
  }
  [[nodiscard]] Vec2 to_hole() const {
    return field.table().pockets[static_cast<std::size_t>(pocket)].centre - ball;
  }
  [[nodiscard]] bool sees_the_mouth() const {
    return in_sight(field.table(), ball, field.table().pockets[static_cast<std::size_t>(pocket)]);
  }
  /// Half the fan of directions outside which nothing drops: a jaw can lead a ball in from a little
  /// outside the fall.
  [[nodiscard]] double spread_rad() const {
    const double wide = field.table().pockets[static_cast<std::size_t>(pocket)].fall_radius_m +
                        field.table().object_ball.radius_m;
    return std::atan2(wide, std::max(wide, engine::norm(to_hole())));
  }
};

/// The edge between a direction that drops and one that does not: the last that was seen to drop.
double edge_between(const Roll& roll, double speed_mps, double in, double out, double to_rad) {
  while (std::abs(out - in) > to_rad) {
    const double middle = 0.5 * (in + out);
    (roll.drops(middle, speed_mps) ? in : out) = middle;
  }
  return in;
}

/// Every stretch of directions that drops, the widest first.
std::vector<Gate> all_scanned(const Roll& roll, double speed_mps, const GateCare& care) {
  const double straight_rad = engine::angle_rad(roll.to_hole());
  const double spread_rad = roll.spread_rad();
  const auto direction_rad = [&](int i) {
    return straight_rad + spread_rad * (2.0 * i / (care.scan_steps - 1) - 1.0);
  };
  std::vector<Gate> found;
  int first = -1;
  for (int i = 0; i <= care.scan_steps; ++i) {
    const bool in = i < care.scan_steps && roll.drops(direction_rad(i), speed_mps);
    if (in && first < 0) first = i;
    if (in || first < 0) continue;
    found.push_back({.from_rad = edge_between(roll, speed_mps, direction_rad(first),
                                              direction_rad(first - 1), care.edge_rad),
                     .to_rad = edge_between(roll, speed_mps, direction_rad(i - 1), direction_rad(i),
                                            care.edge_rad)});
    first = -1;
  }
  std::ranges::stable_sort(found, std::ranges::greater{}, &Gate::half_width_rad);
  return found;
}

std::optional<Gate> scanned(const Roll& roll, double speed_mps, const GateCare& care) {
  const auto all = all_scanned(roll, speed_mps, care);
  if (all.empty()) return std::nullopt;
  return all.front();
}

/// The gate at another pace, from the edges at a pace near to it, or nothing where its middle does
/// not drop any more.
std::optional<Gate> followed(const Roll& roll, double speed_mps, const Gate& known) {
  const double middle_rad = known.middle_rad();
  if (!roll.drops(middle_rad, speed_mps)) return std::nullopt;
  const double reach_rad = 2 * roll.spread_rad();
  const auto edge = [&](double known_rad) {
    const double outward = std::copysign(1.0, known_rad - middle_rad);
    double step = std::max(0.05 * known.half_width_rad(), 4 * followed_edge_rad);
    double in = middle_rad;
    double out = known_rad;
    if (roll.drops(known_rad, speed_mps)) {
      // Further out by growing steps, until nothing drops.
      in = known_rad;
      out = in + outward * step;
      while (std::abs(out - middle_rad) < reach_rad && roll.drops(out, speed_mps)) {
        in = out;
        step *= 2;
        out = in + outward * step;
      }
    } else {
      // Further in, no further than the middle.
      double tried = out - outward * step;
      while (outward * (tried - middle_rad) > 0 && !roll.drops(tried, speed_mps)) {
        out = tried;
        step *= 2;
        tried = out - outward * step;
      }
      if (outward * (tried - middle_rad) > 0) in = tried;
    }
    return edge_between(roll, speed_mps, in, out, followed_edge_rad);
  };
  return Gate{.from_rad = edge(known.from_rad), .to_rad = edge(known.to_rad)};
}

/// The slowest pace at which the ball drops along a line on which it drops at `drops_mps`.
double slowest_mps(const Roll& roll, double direction_rad, double drops_mps) {
  double low = 0;
  double high = drops_mps;
  while (high - low > 1e-3) {
    const double middle = 0.5 * (low + high);
    (roll.drops(direction_rad, middle) ? high : low) = middle;
  }
  return high;
}

/// A stretch of directions at all paces, from its edges at one of them, whose place is `start`.
template <typename Lost>
PotGates::Lane lane_from(const Roll& roll, const std::array<double, PotGates::count>& speeds_mps,
                         std::size_t start, const Gate& first, const Lost& lost) {
  PotGates::Lane lane;
  const auto follow = [&](std::size_t i, double speed_mps, std::optional<Gate>& known) {
    lane[i] = followed(roll, speed_mps, *known);
    if (!lane[i]) lane[i] = lost(speed_mps);
    if (lane[i]) known = lane[i];
  };
  std::optional<Gate> known = first;
  for (std::size_t i = start; i < lane.size(); ++i) follow(i, speeds_mps[i], known);
  known = first;
  for (std::size_t i = start - 1; i > 0; --i) follow(i, speeds_mps[i], known);
  // A little above the slowest: there all lines that lead straight into the fall open at once.
  follow(0, 1.002 * speeds_mps[0], known);
  return lane;
}

/// Takes out of `lane` what has become one with a wider one.
void part_from(PotGates::Lane& lane, const PotGates::Lane& wider) {
  for (std::size_t i = 0; i < lane.size(); ++i) {
    const bool one = lane[i] && wider[i] && lane[i]->from_rad < wider[i]->to_rad &&
                     wider[i]->from_rad < lane[i]->to_rad;
    if (one) lane[i].reset();
  }
}

/// The paces to measure, of which the first is the slowest.
std::array<double, PotGates::count> paces_from(double slowest_mps) {
  constexpr std::array near{1.0, 1.01, 1.04, 1.12, 1.35};
  std::array<double, PotGates::count> speeds{};
  for (std::size_t i = 0; i < near.size(); ++i) speeds[i] = near[i] * slowest_mps;
  const double first = speeds[near.size() - 1];
  const auto rest = static_cast<double>(speeds.size() - near.size());
  const double ratio = std::pow(std::max(1.2, fastest_mps / first), 1 / rest);
  for (std::size_t i = near.size(); i < speeds.size(); ++i) speeds[i] = ratio * speeds[i - 1];
  return speeds;
}

}  // namespace

bool PotGates::none() const {
  return std::ranges::none_of(gates, [](const auto& gate) { return gate.has_value(); });
}

double PotGates::middle_rad() const {
  const Gate* widest = nullptr;
  for (const auto& gate : gates) {
    if (gate && (!widest || gate->half_width_rad() > widest->half_width_rad())) widest = &*gate;
  }
  assert(widest != nullptr);
  return widest->middle_rad();
}

std::optional<Gate> find_gate(const engine::Playfield& field, Vec2 ball, int pocket,
                              double speed_mps, std::span<const Vec2> obstacles,
                              const GateCare& care) {
  const Roll roll{.field = field, .ball = ball, .pocket = pocket, .obstacles = obstacles};
  if (!roll.sees_the_mouth()) return std::nullopt;
  return scanned(roll, speed_mps, care);
}

PotGates find_gates(const engine::Playfield& field, Vec2 ball, int pocket,
                    std::span<const Vec2> obstacles) {
  const Roll roll{.field = field, .ball = ball, .pocket = pocket, .obstacles = obstacles};
  PotGates found;
  if (!roll.sees_the_mouth()) return found;
  // From a medium pace, or a slower one that jaws still let in.
  std::vector<Gate> first;
  double first_mps = 0;
  for (const double speed_mps : {gate_paces_mps[1], gate_paces_mps[0]}) {
    if (!first.empty()) break;
    first = all_scanned(roll, speed_mps, exact_gate);
    first_mps = speed_mps;
  }
  if (first.empty()) return found;
  found.speeds_mps = paces_from(slowest_mps(roll, first.front().middle_rad(), first_mps));
  std::size_t start = 1;
  while (start + 1 < PotGates::count && found.speeds_mps[start] < first_mps) ++start;
  found.gates = lane_from(roll, found.speeds_mps, start, first.front(),
                          [&](double speed_mps) { return scanned(roll, speed_mps, exact_gate); });
  for (std::size_t i = 1; i < first.size(); ++i) {
    auto lane = lane_from(roll, found.speeds_mps, start, first[i],
                          [](double) { return std::optional<Gate>{}; });
    part_from(lane, found.gates);
    for (const PotGates::Lane& wider : found.beside) part_from(lane, wider);
    found.beside.push_back(lane);
  }
  return found;
}

PotGates quick_gates(const engine::Playfield& field, Vec2 ball, int pocket,
                     std::span<const Vec2> obstacles) {
  const Roll roll{.field = field, .ball = ball, .pocket = pocket, .obstacles = obstacles};
  PotGates found;
  if (!roll.sees_the_mouth()) return found;
  const auto gate = scanned(roll, gate_paces_mps[1], quick_gate);
  if (!gate) return found;
  found.speeds_mps = paces_from(slowest_mps(roll, gate->middle_rad(), gate_paces_mps[1]));
  found.gates.fill(gate);
  return found;
}

std::optional<Gate> gate_at(const PotGates& gates, double speed_mps) {
  return gate_at(gates, gates.gates, speed_mps);
}

std::optional<Gate> gate_at(const PotGates& gates, const PotGates::Lane& lane, double speed_mps) {
  const auto& speeds = gates.speeds_mps;
  if (speed_mps < speeds.front()) return std::nullopt;
  if (speed_mps >= speeds.back()) return lane.back();
  std::size_t above = 1;
  while (speeds[above] <= speed_mps) ++above;
  const auto& slower = lane[above - 1];
  const auto& faster = lane[above];
  if (!slower || !faster) return std::nullopt;
  const double part = (speed_mps - speeds[above - 1]) / (speeds[above] - speeds[above - 1]);
  return Gate{.from_rad = std::lerp(slower->from_rad, faster->from_rad, part),
              .to_rad = std::lerp(slower->to_rad, faster->to_rad, part)};
}

PacedGates shown(const PotGates& gates) {
  PacedGates paced;
  for (std::size_t i = 0; i < paced.size(); ++i) paced[i] = gate_at(gates, gate_paces_mps[i]);
  return paced;
}

}  // namespace ahead::coach
