#include "coach/read/opening.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/simulate/simulate.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

/// An open stretch of directions narrower than this is no way, rad: 0.05 mm at 1 m.
constexpr double least_width_rad = 5e-5;
/// To what angle edges that the engine refuses are found, rad.
constexpr double edge_rad = 1e-5;

struct Others {
  std::vector<int> balls;
  std::vector<Vec2> at;
};

Others others_of(const Position& position, int ball) {
  Others others;
  for (int i = 1; i < static_cast<int>(position.at.size()); ++i) {
    if (i == ball || !has(position.present, i)) continue;
    others.balls.push_back(i);
    others.at.push_back(position.at[static_cast<std::size_t>(i)]);
  }
  return others;
}

/// Angle from `from_rad` to `to_rad`, in (-pi, pi].
double turn_rad(double from_rad, double to_rad) {
  return std::remainder(to_rad - from_rad, 2 * std::numbers::pi);
}

/// How far the ball at `other` reaches into the way of a ball of the same radius that runs from
/// `from` at `direction_rad` for `length_m`; negative when it is clear.
double overlap_m(Vec2 from, double direction_rad, double length_m, Vec2 other, double radius_m) {
  const Vec2 along = engine::direction(direction_rad);
  const Vec2 offset = other - from;
  const double ahead_m = engine::dot(offset, along);
  if (ahead_m <= 0) return -engine::norm(offset);
  return 2 * radius_m - engine::norm(offset - std::min(ahead_m, length_m) * along);
}

/// The widest stretch of `gate` that no other ball hides, or nothing.
std::optional<Gate> widest_free(const Gate& gate, Vec2 from, double length_m,
                                const std::vector<Vec2>& others, double radius_m) {
  std::vector<Gate> hidden;
  for (const Vec2 other : others) {
    const Vec2 offset = other - from;
    const double distance_m = engine::norm(offset);
    // Past the pocket, or behind: it does not matter.
    if (distance_m > length_m + 2 * radius_m) continue;
    const double half_rad = std::asin(std::min(1.0, 2 * radius_m / distance_m));
    const double centre_rad =
        gate.middle_rad() + turn_rad(gate.middle_rad(), engine::angle_rad(offset));
    hidden.push_back({.from_rad = centre_rad - half_rad, .to_rad = centre_rad + half_rad});
  }
  std::ranges::sort(hidden, {}, &Gate::from_rad);
  std::optional<Gate> widest;
  double open_rad = gate.from_rad;
  const auto offer = [&](double to_rad) {
    const Gate piece{.from_rad = open_rad, .to_rad = std::min(to_rad, gate.to_rad)};
    const double width_rad = piece.to_rad - piece.from_rad;
    if (width_rad < least_width_rad) return;
    if (!widest || width_rad > widest->to_rad - widest->from_rad) widest = piece;
  };
  for (const Gate& one : hidden) {
    if (one.to_rad < gate.from_rad || one.from_rad > gate.to_rad) continue;
    offer(one.from_rad);
    open_rad = std::max(open_rad, one.to_rad);
  }
  offer(gate.to_rad);
  return widest;
}

/// Plays one ball alone among the others at rest.
class Roll {
 public:
  Roll(const engine::Playfield& field, const Position& position, int ball)
      : simulation_(field), radius_m_(field.table().object_ball.radius_m) {
    // The engine's first ball is the cue ball: it is lifted away, far off the table.
    constexpr double far_m = -100;
    states_.push_back({.position = {far_m, far_m, field.table().cue_ball.radius_m}});
    states_.push_back(
        {.position = engine::lift(position.at[static_cast<std::size_t>(ball)], radius_m_)});
    for (const Vec2 at : others_of(position, ball).at) {
      states_.push_back({.position = engine::lift(at, radius_m_)});
    }
  }

  /// Whether it drops into `pocket` and touches no ball.
  bool drops(double direction_rad, double speed_mps, int pocket) {
    states_[1].velocity = engine::lift(speed_mps * engine::direction(direction_rad));
    const engine::Shot& shot = simulation_.play_from(states_);
    return shot.endings[1].pocket == pocket &&
           std::ranges::none_of(shot.events, [](const engine::Event& event) {
             return event.kind == engine::EventKind::ball_ball ||
                    event.kind == engine::EventKind::group;
           });
  }

 private:
  engine::Simulation simulation_;
  double radius_m_;
  std::vector<engine::BallState> states_;
};

/// The part of `gate` round its middle that the engine confirms, or nothing.
std::optional<Gate> confirmed(Roll& roll, const Gate& gate, double speed_mps, int pocket) {
  const double middle_rad = gate.middle_rad();
  if (!roll.drops(middle_rad, speed_mps, pocket)) return std::nullopt;
  const auto edge = [&](double out_rad) {
    // Just inside: at the very edge the balls graze.
    const double start_rad = out_rad + std::copysign(edge_rad, middle_rad - out_rad);
    if (roll.drops(start_rad, speed_mps, pocket)) return out_rad;
    double in = middle_rad;
    double out = start_rad;
    while (std::abs(out - in) > edge_rad) {
      const double half = 0.5 * (in + out);
      (roll.drops(half, speed_mps, pocket) ? in : out) = half;
    }
    return in;
  };
  return Gate{.from_rad = edge(gate.from_rad), .to_rad = edge(gate.to_rad)};
}

/// On the line of `gate` on which the worst overlap is least: who overlaps, and by how much.
std::vector<Blocker> blockers_of(const Gate& gate, Vec2 from, double length_m, const Others& others,
                                 double radius_m) {
  const auto at = [&](double direction_rad, std::size_t i) {
    return overlap_m(from, direction_rad, length_m, others.at[i], radius_m);
  };
  const auto worst = [&](double direction_rad) {
    double most = -1;
    for (std::size_t i = 0; i < others.at.size(); ++i) most = std::max(most, at(direction_rad, i));
    return most;
  };
  constexpr int steps = 400;
  double best_rad = gate.middle_rad();
  double least_m = worst(best_rad);
  for (int i = 0; i <= steps; ++i) {
    const double tried_rad = std::lerp(gate.from_rad, gate.to_rad, i / static_cast<double>(steps));
    const double tried_m = worst(tried_rad);
    if (tried_m >= least_m) continue;
    least_m = tried_m;
    best_rad = tried_rad;
  }
  std::vector<Blocker> blockers;
  for (std::size_t i = 0; i < others.at.size(); ++i) {
    const double overlap = at(best_rad, i);
    if (overlap > 0) blockers.push_back({.ball = others.balls[i], .overlap_m = overlap});
  }
  std::ranges::stable_sort(blockers, std::ranges::greater{}, &Blocker::overlap_m);
  return blockers;
}

/// The gate that is there at the slowest pace.
std::optional<Gate> first_of(const PacedGates& gates) {
  const auto open = std::ranges::find_if(gates, [](const auto& gate) { return gate.has_value(); });
  return open == gates.end() ? std::nullopt : *open;
}

}  // namespace

Gate Opening::gate() const {
  return standing[1] ? *standing[1] : first_of(standing).value_or(Gate{});
}

double cushion_room_m(const engine::Playfield& field, Vec2 at) {
  return engine::norm(engine::nearest_on(field.nose(), at) - at) - field.object_ball().reach_m;
}

Opening opening_into(const engine::Playfield& field, const Position& position, int ball,
                     int pocket) {
  const engine::Table& table = field.table();
  const double radius_m = table.object_ball.radius_m;
  const Vec2 from = position.at[static_cast<std::size_t>(ball)];
  const Others others = others_of(position, ball);
  Opening one{
      .pocket = pocket,
      .to_pocket_m = engine::norm(table.pockets[static_cast<std::size_t>(pocket)].centre - from)};
  Roll roll(field, position, ball);
  for (std::size_t i = 0; i < gate_paces_mps.size(); ++i) {
    one.alone[i] = find_gate(field, from, pocket, gate_paces_mps[i], {}, exact_gate);
    if (!one.alone[i]) continue;
    const auto free = widest_free(*one.alone[i], from, one.to_pocket_m, others.at, radius_m);
    if (free) one.standing[i] = confirmed(roll, *free, gate_paces_mps[i], pocket);
  }
  const auto alone = first_of(one.alone);
  if (!alone) {
    one.shut = cushion_room_m(field, from) < tight_m ? Shut::cushion : Shut::angle;
  } else if (!first_of(one.standing)) {
    one.shut = Shut::blocked;
    one.blockers = blockers_of(*alone, from, one.to_pocket_m, others, radius_m);
  }
  return one;
}

std::vector<Opening> openings_of(const engine::Playfield& field, const Position& position,
                                 int ball) {
  std::vector<Opening> openings;
  for (int pocket = 0; pocket < static_cast<int>(field.table().pockets.size()); ++pocket) {
    openings.push_back(opening_into(field, position, ball, pocket));
  }
  return openings;
}

std::optional<Gate> unhidden(const engine::Table& table, const Position& position, int ball,
                             int pocket, const Gate& alone) {
  const Vec2 from = position.at[static_cast<std::size_t>(ball)];
  const Vec2 to = table.pockets[static_cast<std::size_t>(pocket)].centre;
  return widest_free(alone, from, engine::norm(to - from), others_of(position, ball).at,
                     table.object_ball.radius_m);
}

}  // namespace ahead::coach
