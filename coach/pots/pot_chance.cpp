#include "coach/pots/pot_chance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>
#include <vector>

#include "coach/player/scatter.h"
#include "engine/motion/motion.h"

namespace ahead::coach {
namespace {

using engine::Table;
using engine::Vec2;

/// Gates are measured with balls sent off without spin. A ball that the contact gave some spin
/// counts as the one without that runs as far: with the first slide and then the roll,
/// v^2 (12/(49 mu_s g) + 25/(98 mu_r g)) from rigid-body theory after Coriolis (1835).
double plain_speed_mps(const Table& table, const engine::BallState& object) {
  const double rolls_at = engine::norm(engine::rolling_velocity_to_come(object, table.object_ball));
  const double slip = engine::norm(engine::slip(object, table.object_ball));
  const double slide = engine::gravity_mps2 * table.cloth.sliding;
  const double roll = engine::gravity_mps2 * table.cloth.rolling;
  const double slides_for_s = 2 * slip / (7 * slide);
  const double starts_at = engine::norm(engine::plan(object.velocity));
  const double run_m =
      0.5 * (starts_at + rolls_at) * slides_for_s + rolls_at * rolls_at / (2 * roll);
  return std::sqrt(run_m / (12 / (49 * slide) + 25 / (98 * roll)));
}

double normal_below(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

/// The errors other than the direction's, in the order of `others`.
constexpr std::array others{&Slip::pace, &Slip::tip_height_m, &Slip::tip_side_m,
                            &Slip::elevation_rad};
using Errors = std::array<double, others.size()>;  ///< in sigmas

/// Standard normal errors spread evenly: a lattice of rank one, turned by the inverse of the
/// normal distribution. Source of the generator: powers of the root of x^5 = x + 1, the golden
/// ratio's like in four dimensions (common practice).
using Lattice = std::vector<Errors>;

double normal_at(double share) {
  double low = -6;
  double high = 6;
  for (int i = 0; i < 50; ++i) {
    const double middle = 0.5 * (low + high);
    (normal_below(middle) < share ? low : high) = middle;
  }
  return low;
}

Lattice lattice_of_errors(std::size_t count) {
  constexpr double root = 1.1673039782614187;
  Lattice lattice(count);
  for (std::size_t i = 0; i < lattice.size(); ++i) {
    const double at = static_cast<double>(i) + 0.5;
    lattice[i][0] = normal_at(at / static_cast<double>(lattice.size()));
    for (std::size_t k = 1; k < others.size(); ++k) {
      const double turns = at / std::pow(root, static_cast<double>(k));
      lattice[i][k] = normal_at(turns - std::floor(turns));
    }
  }
  return lattice;
}

/// The share of touches that do not slip off the tip: over the side by its quantiles, over the
/// height exactly.
double held_share(const engine::Strike& strike, const Slip& sigma, const Slip& bias,
                  const Table& table) {
  const double radius_m = table.cue_ball.radius_m;
  const double limit = table.cue.miscue_offset;
  const double sigma_height = std::max(1e-9, sigma.tip_height_m / radius_m);
  const double height = strike.height + bias.tip_height_m / radius_m;
  constexpr int quantiles = 24;
  static const auto normals = [] {
    std::array<double, quantiles> z{};
    for (int i = 0; i < quantiles; ++i)
      z[static_cast<std::size_t>(i)] = normal_at((i + 0.5) / quantiles);
    return z;
  }();
  double share = 0;
  for (const double z : normals) {
    const double side = strike.side + (bias.tip_side_m + z * sigma.tip_side_m) / radius_m;
    if (std::abs(side) >= limit) continue;
    const double most = std::sqrt(limit * limit - side * side);
    share += normal_below((most - height) / sigma_height) -
             normal_below((-most - height) / sigma_height);
  }
  return share / quantiles;
}

/// How the object ball goes off.
struct Sent {
  double direction_rad = 0;  ///< from the meant one
  double speed_mps = 0;      ///< of the plain ball that runs as far
};

/// Errors of direction, in sigmas, at which the contact is found; at the ends straight on.
constexpr std::array direction_nodes{-12.0, -3.2, -2.4, -1.7, -1.1, -0.5, 0.0,
                                     0.5,   1.1,  1.7,  2.4,  3.2,  12.0};
using DirectionNodes = std::array<std::optional<Sent>, direction_nodes.size()>;

/// By how much an error of direction, of one sigma, turns a sent ball about the meant one.
double turn_at_meant(const DirectionNodes& nodes) {
  constexpr std::size_t middle = direction_nodes.size() / 2;
  const auto& before = nodes[middle - 1];
  const auto& after = nodes[middle + 1];
  if (!before || !after) return -1;
  return (after->direction_rad - before->direction_rad) /
         (direction_nodes[middle + 1] - direction_nodes[middle - 1]);
}

/// The cue ball's way off the tip to the object ball and the object ball's off it, for one strike.
class SentBall {
 public:
  SentBall(const Scene& scene, const Position& position, int ball, const Aim& aim,
           const Slip& sigma)
      : table_(scene.field.table()),
        cue_(position.at[0]),
        object_(position.at[static_cast<std::size_t>(ball)]),
        strike_(aim.strike),
        sigma_(sigma),
        meant_rad_(rolling_direction_rad(table_, aim.contact.object_after)) {}

  [[nodiscard]] double meant_rad() const { return meant_rad_; }

  /// Nothing when the cue ball misses it.
  [[nodiscard]] std::optional<Sent> sent(const Slip& slip) const {
    const engine::Strike tried = played(strike_, slip, table_);
    if (engine::miscues(tried, table_.cue)) return std::nullopt;
    const auto contact = first_contact(table_, cue_, object_, tried);
    if (!contact) return std::nullopt;
    const double turned = rolling_direction_rad(table_, contact->object_after) - meant_rad_;
    return Sent{.direction_rad = std::remainder(turned, 2 * std::numbers::pi),
                .speed_mps = plain_speed_mps(table_, contact->object_after)};
  }

  [[nodiscard]] DirectionNodes over_direction(double bias_rad) const {
    DirectionNodes nodes;
    const std::size_t last = nodes.size() - 1;
    for (std::size_t i = 1; i < last; ++i) {
      nodes[i] = sent({.direction_rad = bias_rad + direction_nodes[i] * sigma_.direction_rad});
    }
    const auto straight_on = [&](std::size_t end, std::size_t near, std::size_t nearer) {
      if (!nodes[near] || !nodes[nearer]) return;
      const double part = (direction_nodes[end] - direction_nodes[near]) /
                          (direction_nodes[near] - direction_nodes[nearer]);
      nodes[end] =
          Sent{.direction_rad = nodes[near]->direction_rad +
                                part * (nodes[near]->direction_rad - nodes[nearer]->direction_rad),
               .speed_mps = nodes[near]->speed_mps};
    };
    straight_on(0, 1, 2);
    straight_on(last, last - 1, last - 2);
    return nodes;
  }

 private:
  const Table& table_;
  Vec2 cue_;
  Vec2 object_;
  engine::Strike strike_;
  Slip sigma_;
  double meant_rad_;
};

/// Between which errors of direction the cue ball meets no other ball first. Straight lines: what
/// swerve does is little against the width of a ball.
Gate free_run(const Scene& scene, const Position& position, int ball, const Aim& aim) {
  const Table& table = scene.field.table();
  const Vec2 cue = position.at[0];
  const Vec2 way = engine::plan(aim.contact.cue_before.position) - cue;
  const double way_m = engine::norm(way);
  const double touching_m = 2 * std::sqrt(table.cue_ball.radius_m * table.object_ball.radius_m);
  Gate free{.from_rad = -std::numbers::pi / 2, .to_rad = std::numbers::pi / 2};
  for (int i = 1; i < static_cast<int>(position.at.size()); ++i) {
    if (i == ball || !has(position.present, i)) continue;
    const Vec2 offset = position.at[static_cast<std::size_t>(i)] - cue;
    const double ahead_m = engine::dot(offset, way) / way_m;
    if (ahead_m <= 0 || ahead_m > way_m) continue;
    const double half_rad = std::asin(std::min(1.0, touching_m / engine::norm(offset)));
    const double at_rad = std::atan2(engine::cross(way, offset), engine::dot(way, offset));
    if (at_rad > 0) {
      free.to_rad = std::min(free.to_rad, at_rad - half_rad);
    } else {
      free.from_rad = std::max(free.from_rad, at_rad + half_rad);
    }
  }
  return free;
}

/// How far a sent ball is inside the gate at its own pace: it drops when nothing is negative.
struct Inside {
  double right_rad = 0;
  double left_rad = 0;
  double pace_mps = 0;
};

Inside inside(const PotGates& gates, double direction_rad, double speed_mps) {
  const double slowest_mps = gates.speeds_mps.front();
  const auto gate = gate_at(gates, std::max(slowest_mps, speed_mps));
  if (!gate) return {.right_rad = -1, .left_rad = -1, .pace_mps = -1};
  const double off = std::remainder(direction_rad - gate->middle_rad(), 2 * std::numbers::pi);
  return {.right_rad = gate->half_width_rad() + off,
          .left_rad = gate->half_width_rad() - off,
          .pace_mps = speed_mps - slowest_mps};
}

/// From one error of direction to another, in sigmas.
struct Stretch {
  double from = 0;
  double to = 0;
};

/// Takes off from the stretch what is negative of a line that goes from `low` at its whole's
/// beginning to `high` at its end.
void keep_positive(Stretch& stretch, const Stretch& whole, double low, double high) {
  if (low >= 0 && high >= 0) return;
  if (low < 0 && high < 0) {
    stretch.to = stretch.from;
    return;
  }
  const double zero = whole.from + (whole.to - whole.from) * low / (low - high);
  if (low < 0) {
    stretch.from = std::max(stretch.from, zero);
  } else {
    stretch.to = std::min(stretch.to, zero);
  }
}

/// An error of direction and the ball that it sends.
struct SentAt {
  double error = 0;
  Sent sent;
};

/// The nodes joined by straight lines, in `steps` steps from one to the next. Stretches on which
/// the cue ball misses are left out.
class SentLine {
 public:
  SentLine(const DirectionNodes& nodes, int steps) {
    for (std::size_t i = 0; i + 1 < nodes.size(); ++i) {
      if (!nodes[i] || !nodes[i + 1]) continue;
      if (points_.empty()) points_.push_back({direction_nodes[i], *nodes[i]});
      for (int k = 1; k <= steps; ++k) {
        const double part = static_cast<double>(k) / steps;
        points_.push_back({std::lerp(direction_nodes[i], direction_nodes[i + 1], part),
                           {std::lerp(nodes[i]->direction_rad, nodes[i + 1]->direction_rad, part),
                            std::lerp(nodes[i]->speed_mps, nodes[i + 1]->speed_mps, part)}});
      }
    }
  }

  [[nodiscard]] bool empty() const { return points_.empty(); }

  /// Requires that it is not empty.
  [[nodiscard]] double speed_mps(double error) const {
    const auto above = std::ranges::upper_bound(points_, error, {}, &SentAt::error);
    if (above == points_.begin()) return points_.front().sent.speed_mps;
    if (above == points_.end()) return points_.back().sent.speed_mps;
    const SentAt& low = *(above - 1);
    const double part = (error - low.error) / (above->error - low.error);
    return std::lerp(low.sent.speed_mps, above->sent.speed_mps, part);
  }

  /// The share of errors of direction, normal about zero and kept to `free`, with which the ball
  /// drops when another error has moved them by `moved` and sends the ball `faster` times as fast.
  [[nodiscard]] double dropping(const PotGates& gates, double meant_rad, double moved,
                                double faster, const Stretch& free) const {
    double share = 0;
    Inside before;
    for (std::size_t i = 0; i < points_.size(); ++i) {
      const SentAt& point = points_[i];
      const Inside now =
          inside(gates, meant_rad + point.sent.direction_rad, faster * point.sent.speed_mps);
      if (i > 0) {
        const Stretch whole{points_[i - 1].error - moved, point.error - moved};
        Stretch stretch{std::max(whole.from, free.from), std::min(whole.to, free.to)};
        keep_positive(stretch, whole, before.right_rad, now.right_rad);
        keep_positive(stretch, whole, before.left_rad, now.left_rad);
        keep_positive(stretch, whole, before.pace_mps, now.pace_mps);
        if (stretch.to > stretch.from) {
          share += normal_below(stretch.to) - normal_below(stretch.from);
        }
      }
      before = now;
    }
    return share;
  }

 private:
  std::vector<SentAt> points_;
};

}  // namespace

std::optional<GatedAim> aim_through(const Table& table, Vec2 cue, Vec2 object,
                                    const PotGates& gates, const engine::Strike& touch_and_pace) {
  // The object ball's pace is known only once the aim is, and the gate hangs on it: twice is
  // enough.
  std::optional<Gate> gate = gate_at(gates, touch_and_pace.cue_speed_mps);
  std::optional<GatedAim> aimed;
  for (int i = 0; i < 2 && gate; ++i) {
    const Vec2 target = object + engine::direction(gate->middle_rad());
    const auto aim = aim_at(table, cue, object, target, touch_and_pace);
    if (!aim) return std::nullopt;
    aimed = GatedAim{*aim, *gate};
    gate = gate_at(gates, plain_speed_mps(table, aim->contact.object_after));
  }
  if (!gate) return std::nullopt;
  return aimed;
}

double pot_chance(const Scene& scene, const Position& position, const Way& way, const Aim& aim,
                  double error_factor, ChanceCare care) {
  static const Lattice quick = lattice_of_errors(16);
  static const Lattice exact = lattice_of_errors(256);
  const Lattice& lattice = care == ChanceCare::quick ? quick : exact;
  const Table& table = scene.field.table();
  const Player& player = scene.player;
  const engine::Strike& strike = aim.strike;
  Slip sigma = sigmas(player, {.elevation_rad = strike.elevation_rad, .carried = error_factor});
  // A player without an error of direction has next to none: the share is found along it.
  constexpr double least_sigma_rad = 1e-7;
  sigma.direction_rad = std::max(least_sigma_rad, sigma.direction_rad);
  const SentBall ball(scene, position, way.ball, aim, sigma);
  const DirectionNodes nodes = ball.over_direction(player.direction_rad.bias);
  const auto meant = ball.sent({});
  if (!meant) return 0;
  const double turn_rad = turn_at_meant(nodes);
  const SentLine line(nodes, care == ChanceCare::quick ? 1 : 4);
  if (line.empty()) return 0;
  // The bias moves the whole of the distribution.
  const Gate run = free_run(scene, position, way.ball, aim);
  const Stretch free{(run.from_rad - player.direction_rad.bias) / sigma.direction_rad,
                     (run.to_rad - player.direction_rad.bias) / sigma.direction_rad};
  const Slip bias{.pace = player.pace.bias,
                  .tip_height_m = player.tip_height_m.bias,
                  .tip_side_m = player.tip_side_m.bias,
                  .elevation_rad = player.elevation_rad.bias};

  double sum = 0;
  int held = 0;
  for (const Errors& drawn : lattice) {
    Slip slip = bias;
    for (std::size_t k = 0; k < others.size(); ++k) slip.*others[k] += drawn[k] * sigma.*others[k];
    if (engine::miscues(played(strike, slip, table), table.cue)) continue;
    ++held;
    const auto shifted = ball.sent(slip);
    if (!shifted) continue;
    // A thin cut answers an error of the cue ball's line the more the thinner it is: so the other
    // errors count as errors of direction with the same effect.
    const double moved =
        turn_rad != 0 ? (shifted->direction_rad - meant->direction_rad) / turn_rad : 0.0;
    const double faster = shifted->speed_mps / line.speed_mps(moved);
    sum += line.dropping(way.gates, ball.meant_rad(), moved, faster, free);
  }
  return held == 0 ? 0.0 : held_share(strike, sigma, bias, table) * sum / held;
}

}  // namespace ahead::coach
