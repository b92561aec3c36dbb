#include "coach/pots/course.h"

#include <algorithm>
#include <cmath>

#include "coach/pots/sight.h"

namespace ahead::coach {
namespace {

using engine::Event;
using engine::EventKind;
using engine::Vec2;

/// Nearer to its pocket than this a cushion is that pocket's jaw, m; a ball that starts against a
/// cushion and moves less than `started_m` has not come off it.
constexpr double jaw_m = 0.16;
constexpr double started_m = 0.03;

/// What a potted ball went through on its way, in the terms of one shot.
struct Course {
  int first = -1;            ///< the ball that the cue ball met first
  std::vector<int> before;   ///< balls that were moving before this one, in order, then its pusher
  bool by_cue_ball = false;  ///< the cue ball set it in motion
  std::vector<int> met_later;    ///< balls that it met once it moved
  int cushions = 0;              ///< before the jaws of its pocket
  bool off_far_cushion = false;  ///< the last of them on the other side from its pocket
};

/// The balls of a meeting, lowest first; none for other events.
std::vector<int> members(const Event& event) {
  if (event.kind == EventKind::ball_ball) return {event.ball, event.other};
  std::vector<int> all;
  if (event.kind != EventKind::group) return all;
  for (int i = 0; i < 32; ++i) {
    if ((event.members >> static_cast<unsigned>(i) & 1U) != 0) all.push_back(i);
  }
  return all;
}

bool contains(const std::vector<int>& balls, int ball) {
  return std::ranges::find(balls, ball) != balls.end();
}

/// Follows one ball of a shot to its pocket. `at` is where the balls lay.
Course course_of(const engine::Shot& shot, int ball, const engine::Table& table,
                 std::span<const Vec2> at) {
  const int pocket = shot.endings[static_cast<std::size_t>(ball)].pocket;
  const Vec2 hole = table.pockets[static_cast<std::size_t>(pocket)].centre;
  Course course;
  bool moves = false;
  Vec2 last_turn = at[static_cast<std::size_t>(ball)];
  for (const Event& event : shot.events) {
    if (event.ball == ball && event.kind == EventKind::pot) break;
    if (event.ball == ball && event.kind == EventKind::cushion) {
      const Vec2 here = engine::plan(event.at);
      const bool jaw = engine::norm(here - hole) < jaw_m;
      if (jaw || engine::norm(here - last_turn) < started_m) continue;
      ++course.cushions;
      course.off_far_cushion = std::abs(here.x - hole.x) > 0.5 * table.width_m;
      last_turn = here;
    }
    const std::vector<int> met = members(event);
    if (met.empty()) continue;
    if (course.first < 0 && met.front() == 0) {
      course.first = event.ball == 0 ? event.other : met[1];
    }
    if (!contains(met, ball)) {
      for (const int mover : met) {
        if (!moves && mover != 0 && !contains(course.before, mover)) course.before.push_back(mover);
      }
      continue;
    }
    const bool cue_ball = met.front() == 0;
    if (!moves) {
      moves = true;
      // Within a group the cue ball pushes the ball that it met first; the others push each other.
      course.by_cue_ball = cue_ball && (event.kind == EventKind::ball_ball || course.first == ball);
      for (const int other : met) {
        if (!course.by_cue_ball && other != 0 && other != ball && !contains(course.before, other)) {
          course.before.push_back(other);
        }
      }
      continue;
    }
    for (const int other : met) {
      if (other != ball) course.met_later.push_back(other);
    }
  }
  return course;
}

/// The name of a course, or nothing for a direct pot and for what nobody would call a shot: more
/// than two cushions or two balls, a second meeting with the cue ball, a plant off a cushion.
std::optional<Indirect> named(const Course& course, int ball, int pocket,
                              const engine::Table& table, std::span<const Vec2> at) {
  Indirect how{.first = course.first, .cushions = course.cushions};
  const bool struck_first = course.first == ball;
  if (!course.met_later.empty()) {
    const bool one_ball = course.met_later.size() == 1 && course.met_later.front() != 0;
    if (!struck_first || !one_ball || course.cushions > 0) return std::nullopt;
    how.means = Means::off_ball;
    how.by = course.met_later;
    return how;
  }
  if (struck_first) {
    if (course.cushions == 0 || course.cushions > 2) return std::nullopt;
    const double hole_m = table.pockets[static_cast<std::size_t>(pocket)].centre.y;
    const bool middle = std::abs(hole_m - 0.5 * table.length_m) < 0.25 * table.length_m;
    const bool across = middle && course.off_far_cushion && course.cushions == 1;
    how.means = across ? Means::cross_double : Means::double_off;
    return how;
  }
  if (course.cushions > 0) return std::nullopt;
  if (course.by_cue_ball) {
    how.means = Means::cannon;
    how.by = {course.first};
    return how;
  }
  if (course.before.empty() || course.before.size() > 2) return std::nullopt;
  how.by = course.before;
  const Vec2 apart =
      at[static_cast<std::size_t>(how.by.back())] - at[static_cast<std::size_t>(ball)];
  const bool touch = engine::norm(apart) < 2 * table.object_ball.radius_m + touching_gap_m;
  how.means = touch ? Means::set : Means::plant;
  return how;
}

}  // namespace

std::optional<Indirect> indirect_of(const engine::Shot& shot, int ball, const engine::Table& table,
                                    std::span<const Vec2> at) {
  const int pocket = shot.endings[static_cast<std::size_t>(ball)].pocket;
  return named(course_of(shot, ball, table, at), ball, pocket, table, at);
}

}  // namespace ahead::coach
