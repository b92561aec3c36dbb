#include "coach/live/live_shot.h"

#include <algorithm>
#include <array>
#include <numbers>
#include <utility>

#include <tbb/parallel_for.h>

#include "coach/risk/tries.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

// Off the middle just far enough that the cue ball neither follows far nor comes back.
constexpr double plain_height = -0.10;
constexpr std::array plain_speeds_mps{0.9, 1.35, 2.0};

/// A strike that is aimed at a pot, and how the player makes it.
struct AimedStrike {
  engine::Strike strike;
  Access access;
  double first_order = 0;
};

Vec2 place_of(const Position& position, int ball) {
  return position.at[static_cast<std::size_t>(ball)];
}

/// The elevation hangs on the aim, and the aim a little on the elevation.
std::optional<AimedStrike> aimed(const Scene& scene, const Position& position, const Way& way,
                                 const AimedTouch& wanted, ChanceCare care) {
  const engine::Table& table = scene.field.table();
  const Vec2 object = place_of(position, way.ball);
  engine::Strike strike{.elevation_rad = wanted.elevation_rad,
                        .side = wanted.touch.side,
                        .height = wanted.touch.height,
                        .cue_speed_mps = wanted.touch.cue_speed_mps};
  if (engine::miscues(strike, table.cue)) return std::nullopt;
  const auto rough = aim_through(table, position.at[0], object, way.gates, strike);
  if (!rough) return std::nullopt;
  strike.aim_rad = rough->aim.strike.aim_rad;
  const Access reached = access(scene, position, strike);
  if (!reached.blocked) {
    strike.elevation_rad = std::max(wanted.elevation_rad, reached.elevation_rad);
  }
  const auto fine = aim_through(table, position.at[0], object, way.gates, strike, strike.aim_rad);
  if (!fine) return std::nullopt;
  return AimedStrike{
      .strike = fine->aim.strike,
      .access = reached,
      .first_order = pot_chance(scene, position, way, fine->aim, reached.error_factor, care)};
}

std::optional<AimedStrike> surest_plain(const Scene& scene, const Position& position,
                                        const Way& way) {
  std::optional<AimedStrike> best;
  for (const double speed_mps : plain_speeds_mps) {
    const auto one =
        aimed(scene, position, way, {.touch = {.height = plain_height, .cue_speed_mps = speed_mps}},
              ChanceCare::quick);
    if (one && (!best || one->first_order > best->first_order)) best = one;
  }
  return best;
}

/// A strike as it was given: its chance is that of the direction in which it sends the ball.
AimedStrike as_given(const Scene& scene, const Position& position, const engine::Strike& strike,
                     const Way* way, ChanceCare care) {
  AimedStrike given{.strike = strike, .access = access(scene, position, strike)};
  if (way == nullptr) return given;
  const engine::Table& table = scene.field.table();
  const Vec2 object = place_of(position, way->ball);
  const auto contact = first_contact(table, position.at[0], object, strike);
  if (!contact) return given;
  given.first_order = pot_chance(scene, position, *way, {.strike = strike, .contact = *contact},
                                 given.access.error_factor, care);
  return given;
}

LivePot looked_at(const Scene& scene, const Position& position, int ball, const Way* way) {
  LivePot pot{.on = has(balls_on(scene.task, position.present), ball)};
  if (way == nullptr) {
    pot.no_pot = NoPot::closed;
    return pot;
  }
  const engine::Table& table = scene.field.table();
  const Vec2 object = place_of(position, ball);
  pot.blockers = way->blockers & position.present;
  pot.gate = gate_at(way->gates, gate_paces_mps[1]);
  if (!pot.gate) {
    pot.gate = *std::ranges::find_if(way->gates.gates, [](const auto& g) { return !!g; });
  }
  const Vec2 line = engine::direction(pot.gate->middle_rad());
  pot.ghost = ghost_ball(table, object, object + line);
  const Vec2 aim = *pot.ghost - position.at[0];
  // The cue ball leaves on the other side from the object ball.
  pot.tangent_rad =
      engine::angle_rad(line) + (engine::cross(aim, line) > 0 ? -1 : 1) * std::numbers::pi / 2;
  if (pot.blockers != 0) {
    pot.no_pot = NoPot::blocked;
  } else if (engine::dot(aim, line) <= 0) {
    pot.no_pot = NoPot::cut_too_fine;
  }
  return pot;
}

}  // namespace

LiveShot live_shot(const Scene& scene, const Position& position, const LiveQuestion& question,
                   const Way* way) {
  LiveShot shot;
  if (question.pot) shot.pot = looked_at(scene, position, question.pot->ball, way);
  // Beside tries the chance to first order is a hint.
  const ChanceCare care = question.tries > 0 ? ChanceCare::quick : ChanceCare::exact;
  std::optional<AimedStrike> found;
  if (const auto* strike = std::get_if<engine::Strike>(&question.how)) {
    found = as_given(scene, position, *strike, way, care);
  } else if (way != nullptr) {
    const auto* touch = std::get_if<AimedTouch>(&question.how);
    found = touch != nullptr ? aimed(scene, position, *way, *touch, care)
                             : surest_plain(scene, position, *way);
  }
  if (!found) {
    if (shot.pot && !shot.pot->no_pot) shot.pot->no_pot = NoPot::no_strike;
    return shot;
  }
  shot.strike = found->strike;
  shot.access = found->access;
  Played played = play(scene.field, position, found->strike);
  shot.leaves = after(position, played);
  if (!shot.pot) {
    shot.intended = std::move(played.shot);
    return shot;
  }
  if (!shot.pot->no_pot && shot.access.blocked) shot.pot->no_pot = NoPot::no_access;
  shot.pot->first_order = found->first_order;
  const Call call{.ball = question.pot->ball,
                  .pocket = question.pot->pocket,
                  .strike = found->strike,
                  .access = found->access};
  shot.option = described_but_face(scene, position, call);
  shot.intended = shot.option->intended;
  if (question.tries > 0) {
    add_tries(*shot.option, tries_of(scene, position, call, question.tries, question.seed));
  }
  return shot;
}

std::vector<PlainPot> plain_pots(const Scene& scene, const Position& position) {
  const BallSet on = balls_on(scene.task, position.present);
  std::vector<std::vector<PlainPot>> of_ball(position.at.size());
  tbb::parallel_for(std::size_t{1}, of_ball.size(), [&](std::size_t i) {
    const int ball = static_cast<int>(i);
    if (!has(on, ball)) return;
    for (const Way& way : quick_ways_of(scene, position, ball)) {
      if ((way.blockers & position.present) != 0) continue;
      const auto plain = surest_plain(scene, position, way);
      if (!plain || !recommended(plain->access) || plain->first_order < hopeless_pot) continue;
      of_ball[i].push_back({.pot = {.ball = ball, .pocket = way.pocket},
                            .strike = plain->strike,
                            .first_order = plain->first_order});
    }
  });
  std::vector<PlainPot> pots;
  for (const auto& some : of_ball) pots.insert(pots.end(), some.begin(), some.end());
  std::ranges::stable_sort(pots, std::greater{}, &PlainPot::first_order);
  return pots;
}

}  // namespace ahead::coach
