#pragma once

#include <array>
#include <cmath>
#include <numbers>
#include <string_view>

#include "engine/equipment/presets.h"
#include "engine/motion/motion.h"
#include "engine/simulate/simulate.h"
#include "engine/simulate/stretch.h"
#include "tests/support/search.h"

/// A cue ball below an object ball on an otherwise empty table, for the facts of the trade.
namespace ahead::test {

inline constexpr double degrees = std::numbers::pi / 180;

inline const engine::Playfield& field_of(std::string_view id) {
  static const engine::Playfield pub(*engine::table_preset("english-7ft"));
  static const engine::Playfield match(*engine::table_preset("english-7ft-match"));
  return id == "english-7ft" ? pub : match;
}

/// The cue ball `distance_m` below the object ball, aimed up the table for a cut of `cut_rad` to
/// the left: the cue ball passes on the object ball's right and is turned to the right.
struct Scene {
  const engine::Playfield& field;
  double distance_m = 0.5;
  double cut_rad = 0;
  double height = 0;
  double cue_speed_mps = 1;
};

inline constexpr engine::Vec2 object_place{0.45, 1.0};

inline engine::Shot played(const Scene& scene) {
  const engine::Table& table = scene.field.table();
  const double touch_m = 2 * std::sqrt(table.cue_ball.radius_m * table.object_ball.radius_m);
  const double off_m = touch_m * std::sin(scene.cut_rad);
  const std::array<engine::Vec2, 2> balls{
      {{object_place.x + off_m, object_place.y - scene.distance_m}, object_place}};
  return simulate(scene.field, balls,
                  {.aim_rad = std::numbers::pi / 2,
                   .height = scene.height,
                   .cue_speed_mps = scene.cue_speed_mps});
}

/// The two states of the cue ball at its first meeting with the object ball.
struct Meeting {
  double t_s = 0;
  engine::BallState before;
  engine::BallState after;
};

inline Meeting first_meeting(const engine::Shot& shot, const engine::Table& table) {
  Meeting meeting;
  for (const engine::Event& event : shot.events) {
    if (event.kind != engine::EventKind::ball_ball) continue;
    meeting.t_s = event.t_s;
    for (const engine::Stretch& stretch : path_of(shot, 0)) {
      if (stretch.t1_s == event.t_s) meeting.before = state_at(stretch, table, event.t_s);
      if (stretch.t0_s == event.t_s) meeting.after = stretch.start;
    }
    break;
  }
  return meeting;
}

/// Roll ratio of a ball that moves up the table: 1 rolls, 0 is stun, below 0 is back spin.
inline double roll_ratio(const engine::BallState& state, const engine::Ball& ball) {
  return -ball.radius_m * state.spin.x / state.velocity.y;
}

/// Roll ratio with which the cue ball of a scene arrives.
inline double arrival(const Scene& scene) {
  const engine::Table& table = scene.field.table();
  return roll_ratio(first_meeting(played(scene), table).before, table.cue_ball);
}

/// Height at which the cue ball of a scene arrives stunned. Requires that the pace allows it.
inline double stun_height(Scene scene) {
  return zero_of(
      [&](double height) {
        scene.height = height;
        return arrival(scene);
      },
      -0.5, 0.1);
}

}  // namespace ahead::test
