#include "coach/pots/sight.h"

#include <algorithm>
#include <cmath>

#include "engine/simulate/next_contact.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

/// Directions in which a ball's width is looked at.
constexpr int looks = 401;

/// Distance along the ray from `from` to where a disc of `reach_m` about `at` is met; infinite when
/// it is missed.
double distance_m(Vec2 from, Vec2 along, Vec2 at, double reach_m) {
  const Vec2 offset = at - from;
  const double ahead_m = engine::dot(offset, along);
  const double aside_m = engine::cross(along, offset);
  const double inside = reach_m * reach_m - aside_m * aside_m;
  // A ball that touches counts as met when the look goes towards it.
  if (ahead_m <= 0 || inside < 0) return engine::never;
  return std::max(0.0, ahead_m - std::sqrt(inside));
}

/// Distance to the cushion's nose in this direction, m.
double cushion_m(const engine::Playfield& field, Vec2 from, Vec2 along) {
  const engine::Table& table = field.table();
  const engine::Ball& ball = table.cue_ball;
  // A ball fast enough to cross any table; it rolls, so it goes straight.
  constexpr double speed_mps = 10;
  engine::BallState state{.position = engine::lift(from, ball.radius_m),
                          .velocity = engine::lift(speed_mps * along)};
  state.spin = {-state.velocity.y / ball.radius_m, state.velocity.x / ball.radius_m, 0};
  constexpr engine::Phase rolling = engine::Phase::rolling;
  const double lasts_s = engine::phase_duration_s(rolling, state, ball, table.cloth);
  const engine::Path path = engine::path_of(rolling, state, ball, table.cloth, lasts_s);
  const double meets_s =
      engine::next_nose(path, field.nose(), table, ball, field.cue_ball().reach_m).t_s;
  if (meets_s == engine::never) return engine::never;
  const Vec2 there =
      engine::plan(engine::advance(rolling, state, ball, table.cloth, meets_s).position);
  return engine::norm(there - from);
}

}  // namespace

std::vector<Sight> sights_of(const engine::Playfield& field, const Position& position) {
  const engine::Table& table = field.table();
  const double reach_m = 2 * std::sqrt(table.cue_ball.radius_m * table.object_ball.radius_m);
  const Vec2 cue = position.at[0];
  std::vector<Sight> sights;
  for (int ball = 1; ball < static_cast<int>(position.at.size()); ++ball) {
    if (!has(position.present, ball)) continue;
    Sight sight{.ball = ball};
    const Vec2 offset = position.at[static_cast<std::size_t>(ball)] - cue;
    const double away_m = engine::norm(offset);
    sight.touching = away_m < reach_m + touching_gap_m;
    // The outermost looks graze: a hair inside the true tangents.
    const double half_rad = std::asin(std::min(1.0, reach_m / away_m)) * (1 - 1e-6);
    int open = 0;
    std::vector<int> hides;
    for (int look = 0; look < looks; ++look) {
      const double turned_rad = half_rad * (1 - 2.0 * look / (looks - 1));  // left to right
      const Vec2 along = engine::direction(engine::angle_rad(offset) + turned_rad);
      const double here_m =
          distance_m(cue, along, position.at[static_cast<std::size_t>(ball)], reach_m);
      bool seen = cushion_m(field, cue, along) >= here_m;
      for (int other = 1; other < static_cast<int>(position.at.size()); ++other) {
        if (other == ball || !has(position.present, other)) continue;
        const double there_m =
            distance_m(cue, along, position.at[static_cast<std::size_t>(other)], reach_m);
        if (there_m >= here_m) continue;
        seen = false;
        if (std::ranges::find(hides, other) == hides.end()) hides.push_back(other);
      }
      open += seen ? 1 : 0;
      if (look == 0) sight.left_edge = seen;
      if (look == looks - 1) sight.right_edge = seen;
    }
    sight.seen = open / static_cast<double>(looks);
    std::ranges::stable_sort(hides, {}, [&](int other) {
      return engine::norm(position.at[static_cast<std::size_t>(other)] - cue);
    });
    sight.hidden_by = std::move(hides);
    sights.push_back(std::move(sight));
  }
  return sights;
}

}  // namespace ahead::coach
