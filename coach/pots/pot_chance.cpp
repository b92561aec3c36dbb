#include "coach/pots/pot_chance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>
#include <optional>
#include <vector>

#include <tbb/parallel_for.h>

#include "coach/player/scatter.h"
#include "coach/pots/sent_ball.h"
#include "coach/pots/sent_line.h"

namespace ahead::coach {
namespace {

using engine::Table;
using engine::Vec2;

/// Perpendicular units in the space of errors. Along the first the ball's direction answers most,
/// so that across it the direction hardly changes; along the second, of the rest, its speed.
using Axes = std::array<Errors, std::tuple_size_v<Errors>>;

Axes axes_of(const SentBall& ball, const std::optional<Sent>& meant) {
  Errors direction{};
  Errors speed{};
  for (std::size_t k = 0; meant && k < direction.size(); ++k) {
    Errors step{};
    step[k] = 1;
    const auto stepped = ball.sent(step);
    if (!stepped) continue;
    direction[k] = stepped->direction_rad - meant->direction_rad;
    speed[k] = stepped->speed_mps - meant->speed_mps;
  }
  Axes axes{};
  std::size_t count = 0;
  const auto offer = [&](Errors one) {
    const double before = std::sqrt(dot(one, one));
    for (std::size_t i = 0; i < count; ++i) one = plus(one, -dot(one, axes[i]), axes[i]);
    const double length = std::sqrt(dot(one, one));
    if (count == axes.size() || length <= 0.1 * before) return;
    for (double& part : one) part /= length;
    axes[count++] = one;
  };
  offer(direction);
  offer(speed);
  for (std::size_t k = 0; k < direction.size(); ++k) {
    Errors unit{};
    unit[k] = 1;
    offer(unit);
  }
  return axes;
}

/// Between which turns of its way the cue ball meets no other ball first. Straight lines: what
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

/// Where on the line the tip does not slip off.
Stretch holding(const ErrorLine& line, const engine::Strike& strike, const Slip& sigma,
                const Slip& bias, const Table& table) {
  const double radius_m = table.cue_ball.radius_m;
  const Vec2 step{sigma.tip_side_m * line.along[side_error] / radius_m,
                  sigma.tip_height_m * line.along[height_error] / radius_m};
  const Vec2 base{
      strike.side + (bias.tip_side_m + sigma.tip_side_m * line.base[side_error]) / radius_m,
      strike.height +
          (bias.tip_height_m + sigma.tip_height_m * line.base[height_error]) / radius_m};
  const double outside = engine::dot(base, base) - std::pow(table.cue.miscue_offset, 2);
  const double square = engine::dot(step, step);
  constexpr double far = 20;
  if (square < 1e-18) return outside > 0 ? Stretch{} : Stretch{-far, far};
  const double half = engine::dot(base, step) / square;
  const double under = half * half - outside / square;
  if (under <= 0) return {};
  return {-half - std::sqrt(under), -half + std::sqrt(under)};
}

constexpr std::array quick_nodes{-12.0, -2.8, -1.8, -0.9, 0.0, 0.9, 1.8, 2.8, 12.0};
constexpr std::size_t quick_lines = 8;

/// A pot whose chance is asked for.
struct Pot {
  const Table& table;
  const engine::Strike& strike;
  Slip sigma;
  Slip bias;
  SentBall ball;
  std::optional<Sent> meant;  ///< how it goes off without an error
  Axes axes{};
  PotTest test;

  [[nodiscard]] ErrorLine line(const Across& across) const {
    ErrorLine line{.along = axes[0]};
    for (std::size_t k = 0; k < across.size(); ++k) {
      line.base = plus(line.base, across[k], axes[k + 1]);
    }
    return line;
  }
  [[nodiscard]] double dropping(const SentLine& sent, const ErrorLine& line,
                                const SentLine::Shift& shift) const {
    return sent.dropping(test, holding(line, strike, sigma, bias, table), shift);
  }
};

/// One line is followed; what an error across it does is found at its middle.
double shifted_share(const Pot& pot) {
  static const auto spread = spread_across(quick_lines);
  const SentLine middle(pot.ball, {.along = pot.axes[0]}, quick_nodes);
  if (middle.empty() || !pot.meant) return 0;
  constexpr double step = 0.5;
  const double turn_rad =
      (middle.at(step).direction_rad - middle.at(-step).direction_rad) / (2 * step);
  double sum = 0;
  for (const Across& across : spread) {
    const ErrorLine line = pot.line(across);
    const auto shifted = pot.ball.sent(line.base);
    if (!shifted) continue;
    SentLine::Shift shift;
    if (turn_rad != 0) shift.moved = (shifted->direction_rad - pot.meant->direction_rad) / turn_rad;
    shift.faster = shifted->speed_mps / middle.at(shift.moved).speed_mps;
    sum += pot.dropping(middle, line, shift);
  }
  return sum / static_cast<double>(spread.size());
}

/// Errors, spread evenly, that go the short way; the first of them are played as well, and more of
/// them when one ends otherwise than the short way has it: so many at first, that a difference of 2
/// points is not missed.
constexpr std::size_t short_ways = 8192;
constexpr std::size_t probes = 256;
constexpr std::size_t many_probes = 2048;

/// The share of errors with which the ball drops: by the short way, corrected by what the shots
/// that are played show otherwise (a control variate: Hammersley and Handscomb, 1964; from memory).
double spread_share(const Pot& pot, const Scene& scene, const Position& position, const Way& way) {
  enum class End { misses, drops, slips };
  std::vector<End> ends(short_ways);
  const auto errors = [](std::size_t i) { return spread_normals(0, i); };
  tbb::parallel_for(std::size_t{0}, ends.size(), [&](std::size_t i) {
    const Errors off = errors(i);
    if (engine::miscues(pot.ball.strike_with(off), pot.table.cue)) {
      ends[i] = End::slips;
    } else {
      const auto sent = pot.ball.sent(off);
      ends[i] = sent && passes(pot.test, *sent) ? End::drops : End::misses;
    }
  });
  /// 1 where the ball drops though the short way says not, -1 the other way round.
  const auto difference = [&](std::size_t i) {
    if (ends[i] == End::slips) return 0;
    const Played shot = play(scene.field, position, pot.ball.strike_with(errors(i)));
    const auto at = std::ranges::find(shot.indices, way.ball) - shot.indices.begin();
    const bool dropped = shot.shot.endings[static_cast<std::size_t>(at)].pocket == way.pocket;
    return static_cast<int>(dropped) - static_cast<int>(ends[i] == End::drops);
  };
  std::vector<int> differences(many_probes);
  const auto play_from = [&](std::size_t from, std::size_t to) {
    tbb::parallel_for(from, to, [&](std::size_t i) { differences[i] = difference(i); });
  };
  play_from(0, probes);
  if (std::ranges::any_of(differences, [](int one) { return one != 0; })) {
    play_from(probes, many_probes);
  }
  const auto dropping = static_cast<double>(std::ranges::count(ends, End::drops));
  return dropping / short_ways +
         std::accumulate(differences.begin(), differences.end(), 0.0) / many_probes;
}

}  // namespace

std::optional<GatedAim> aim_through(const Table& table, Vec2 cue, Vec2 object,
                                    const PotGates& gates, const engine::Strike& touch_and_pace,
                                    std::optional<double> near_rad) {
  // The gate hangs on the object ball's pace, which is known only once the cue ball meets it.
  std::optional<Gate> gate = gate_at(gates, touch_and_pace.cue_speed_mps);
  if (!gate) return std::nullopt;
  const auto through = [&] { return object + engine::direction(gate->middle_rad()); };
  const auto aim = aim_at(
      table, cue, object, through(),
      [&](const engine::BallState& object_after) -> std::optional<Vec2> {
        gate = gate_at(gates, plain_speed_mps(table, object_after));
        if (!gate) return std::nullopt;
        return through();
      },
      touch_and_pace, near_rad);
  if (!aim) return std::nullopt;
  return GatedAim{*aim, *gate};
}

double pot_chance(const Scene& scene, const Position& position, const Way& way, const Aim& aim,
                  double error_factor, ChanceCare care) {
  const Player& player = scene.player;
  const Slip sigma =
      sigmas(player, {.elevation_rad = aim.strike.elevation_rad, .carried = error_factor});
  const Slip bias{.direction_rad = player.direction_rad.bias,
                  .pace = player.pace.bias,
                  .tip_height_m = player.tip_height_m.bias,
                  .tip_side_m = player.tip_side_m.bias,
                  .elevation_rad = player.elevation_rad.bias};
  const SentBall ball(scene, position, way.ball, aim, sigma, bias);
  const auto meant = ball.sent({});
  const Pot pot{.table = scene.field.table(),
                .strike = aim.strike,
                .sigma = sigma,
                .bias = bias,
                .ball = ball,
                .meant = meant,
                .axes = axes_of(ball, meant),
                .test = {.gates = &way.gates,
                         .meant_rad = ball.meant_rad(),
                         .free = free_run(scene, position, way.ball, aim)}};
  if (care == ChanceCare::quick) return shifted_share(pot);
  return std::clamp(spread_share(pot, scene, position, way), 0.0, 1.0);
}

}  // namespace ahead::coach
