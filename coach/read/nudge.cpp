#include "coach/read/nudge.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "engine/simulate/simulate.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

constexpr int pushes = 16;
/// Speeds just after contact: they run about 1, 4, 10, 20 and 35 cm on a medium cloth.
constexpr std::array speeds_mps{0.08, 0.16, 0.26, 0.36, 0.48};
constexpr double longest_m = 0.5;
/// Less than this is luck, not a push (common practice, no source).
constexpr double least_m = 0.01;

struct Candidate {
  Nudge nudge;
  Position after;
};

bool room_for_cue_ball(const engine::Playfield& field, const Position& position, Vec2 at,
                       int touched) {
  const engine::Table& table = field.table();
  if (engine::norm(engine::nearest_on(field.nose(), at) - at) < field.cue_ball().reach_m) {
    return false;
  }
  const double touching_m = 2 * std::sqrt(table.cue_ball.radius_m * table.object_ball.radius_m);
  for (int i = 1; i < static_cast<int>(position.at.size()); ++i) {
    if (i != touched && has(position.present, i) &&
        engine::norm(position.at[static_cast<std::size_t>(i)] - at) < touching_m) {
      return false;
    }
  }
  return at.x > 0 && at.y > 0 && at.x < table.width_m && at.y < table.length_m;
}

/// Every push of one ball that keeps all balls on the table.
void add_pushes(const engine::Playfield& field, const Position& position, int ball,
                std::vector<Candidate>& candidates) {
  const engine::Table& table = field.table();
  const Vec2 from = position.at[static_cast<std::size_t>(ball)];
  const double touching_m = 2 * std::sqrt(table.cue_ball.radius_m * table.object_ball.radius_m);
  engine::Simulation simulation(field);
  std::vector<int> indices{0};
  constexpr double far_m = -100;  // the cue ball is lifted away
  std::vector<engine::BallState> states{{.position = {far_m, far_m, table.cue_ball.radius_m}}};
  std::size_t pushed = 0;
  for (int i = 1; i < static_cast<int>(position.at.size()); ++i) {
    if (!has(position.present, i)) continue;
    if (i == ball) pushed = states.size();
    indices.push_back(i);
    states.push_back({.position = engine::lift(position.at[static_cast<std::size_t>(i)],
                                               table.object_ball.radius_m)});
  }
  for (int push = 0; push < pushes; ++push) {
    const double push_rad = 2 * std::numbers::pi * push / pushes;
    const Vec2 contact = from - touching_m * engine::direction(push_rad);
    if (!room_for_cue_ball(field, position, contact, ball)) continue;
    for (const double speed_mps : speeds_mps) {
      states[pushed].velocity = engine::lift(speed_mps * engine::direction(push_rad));
      const engine::Shot& shot = simulation.play_from(states);
      Candidate one{.nudge = {.ball = ball, .contact = contact, .push_rad = push_rad},
                    .after = position};
      bool all_stay = true;
      for (std::size_t i = 1; i < indices.size(); ++i) {
        all_stay = all_stay && shot.endings[i].on_table();
        one.after.at[static_cast<std::size_t>(indices[i])] = engine::plan(shot.endings[i].position);
      }
      one.nudge.to = one.after.at[static_cast<std::size_t>(ball)];
      one.nudge.moves_m = engine::norm(one.nudge.to - from);
      const double moves_m = one.nudge.moves_m;
      if (all_stay && moves_m >= least_m && moves_m <= longest_m) {
        candidates.push_back(std::move(one));
      }
    }
  }
}

/// Whether a push opens this pocket, by a quick look: half of what the jaws let in, and a region.
bool seems_open(const engine::Playfield& field, const Candidate& one, int ball,
                const Opening& before) {
  const engine::Table& table = field.table();
  // A ball that stays keeps its gate.
  const auto alone = one.nudge.ball == ball
                         ? find_gate(field, one.after.at[static_cast<std::size_t>(ball)],
                                     before.pocket, gate_paces_mps[1], {}, quick_gate)
                         : before.alone[1];
  if (!alone) return false;
  const auto gate = unhidden(table, one.after, ball, before.pocket, *alone);
  if (!gate || gate->half_width_rad() < 0.5 * alone->half_width_rad()) return false;
  const PotLine line = pot_line(field, one.after, ball, *gate);
  if (!line.room) return false;
  constexpr std::size_t every = 5;
  const Places places = places_of(field, one.after);
  double from = 0;
  double free = 0;
  for (std::size_t place = 0; place < places.size(); place += every) {
    if (!places.free[place]) continue;
    ++free;
    if (!line_up(table, one.after, line, places.at(place)).not_from) ++from;
  }
  return from >= worth_opening * free;
}

/// The pockets of `shut` that the push opens, as they will be read.
std::vector<int> opened(const engine::Playfield& field, const Candidate& one, int ball,
                        const std::vector<Opening>& shut) {
  std::vector<int> pockets;
  for (const Opening& before : shut) {
    if (!seems_open(field, one, ball, before)) continue;
    const Opening now = opening_into(field, one.after, ball, before.pocket);
    const Places places = places_of(field, one.after);
    const auto region = region_of(field, one.after, ball, now, places);
    if (share_of(region, places) >= worth_opening) pockets.push_back(before.pocket);
  }
  return pockets;
}

}  // namespace

std::optional<Nudge> freeing_nudge(const engine::Playfield& field, const Position& position,
                                   int ball, const std::vector<Opening>& shut) {
  BallSet movable = bit(ball);
  for (const Opening& opening : shut) {
    // One ball alone in the way may be moved instead.
    if (opening.blockers.size() == 1) movable |= bit(opening.blockers.front().ball);
  }
  std::vector<Candidate> candidates;
  for (int i = 1; i < static_cast<int>(position.at.size()); ++i) {
    if (has(movable, i)) add_pushes(field, position, i, candidates);
  }
  std::ranges::stable_sort(candidates, {}, [](const Candidate& one) { return one.nudge.moves_m; });
  for (Candidate& one : candidates) {
    one.nudge.opens = opened(field, one, ball, shut);
    if (!one.nudge.opens.empty()) return one.nudge;
  }
  return std::nullopt;
}

}  // namespace ahead::coach
