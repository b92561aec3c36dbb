#include "coach/aim/contact.h"

#include "engine/contact/ball_ball.h"
#include "engine/contact/landing.h"
#include "engine/motion/motion.h"
#include "engine/simulate/next_contact.h"
#include "engine/simulate/path.h"

namespace ahead::coach {

using engine::BallState;
using engine::Phase;
using engine::Table;
using engine::Vec2;

std::optional<Contact> first_contact(const Table& table, Vec2 cue, Vec2 object,
                                     const engine::Strike& strike) {
  const double touching_m = table.cue_ball.radius_m + table.object_ball.radius_m;
  const BallState resting{.position = engine::lift(object, table.object_ball.radius_m)};
  BallState state{.position = engine::lift(cue, table.cue_ball.radius_m)};
  state = engine::struck(state, strike, table.cue_ball, table.cue, table.cloth);
  double t_s = 0;
  // Slide, roll (on nap a chain of phases), and perhaps some hops before them.
  constexpr int most_phases = 1000;
  for (int i = 0; i < most_phases; ++i) {
    const Phase phase = engine::phase_of(state, table.cue_ball);
    if (phase == Phase::rest || phase == Phase::spinning) return std::nullopt;
    const double lasts_s = engine::phase_duration_s(phase, state, table.cue_ball, table.cloth);
    const engine::Path path = engine::path_of(phase, state, table.cue_ball, table.cloth, lasts_s);
    const double meets_s = engine::next_meeting(path, resting.position, touching_m);
    if (meets_s <= lasts_s) {
      Contact contact{
          .t_s = t_s + meets_s,
          .cue_before = engine::advance(phase, state, table.cue_ball, table.cloth, meets_s)};
      const auto [cue_after, object_after] = engine::collided(
          contact.cue_before, table.cue_ball, resting, table.object_ball, table.ball_contact);
      contact.cue_after = engine::settled_on_bed(cue_after, table.cue_ball, table.cloth);
      contact.object_after = engine::settled_on_bed(object_after, table.object_ball, table.cloth);
      return contact;
    }
    state = engine::at_phase_end(phase, state, table.cue_ball, table.cloth, lasts_s);
    if (phase == Phase::airborne) state = engine::landed(state, table.cue_ball, table.cloth);
    t_s += lasts_s;
  }
  return std::nullopt;
}

double rolling_direction_rad(const Table& table, const BallState& object) {
  return engine::angle_rad(engine::rolling_velocity_to_come(object, table.object_ball));
}

double passes_by_m(const Table& table, const BallState& object, Vec2 target) {
  BallState rolling = object;
  if (engine::phase_of(object, table.object_ball) == Phase::sliding) {
    const double slides_s =
        engine::phase_duration_s(Phase::sliding, object, table.object_ball, table.cloth);
    rolling =
        engine::at_phase_end(Phase::sliding, object, table.object_ball, table.cloth, slides_s);
  }
  // On nap the line bends: from stride to stride until the target is abreast.
  while (table.cloth.nap > 0 && engine::phase_of(rolling, table.object_ball) == Phase::rolling) {
    const double lasts_s =
        engine::phase_duration_s(Phase::rolling, rolling, table.object_ball, table.cloth);
    const BallState next =
        engine::at_phase_end(Phase::rolling, rolling, table.object_ball, table.cloth, lasts_s);
    const Vec2 chord = engine::plan(next.position - rolling.position);
    const Vec2 to_target = target - engine::plan(rolling.position);
    if (engine::dot(to_target, chord) <= engine::dot(chord, chord)) {
      return engine::cross(to_target, engine::unit(chord));
    }
    if (engine::norm(engine::plan(next.velocity)) == 0) break;
    rolling = next;
  }
  const Vec2 along = engine::unit(engine::plan(rolling.velocity));
  return engine::cross(target - engine::plan(rolling.position), along);
}

}  // namespace ahead::coach
