#include "engine/simulate/off_nose.h"

#include <cmath>

#include "engine/contact/ball_ball.h"
#include "engine/contact/cushion.h"
#include "engine/contact/landing.h"
#include "engine/motion/motion.h"

namespace ahead::engine {
namespace {

BallState off_nose_in_the_air(const BallState& at_nose, const Ball& ball, Vec2 nose,
                              const Table& table) {
  const Vec3 to_nose = unit(lift(nose, table.nose_height_m) - at_nose.position);
  if (dot(at_nose.velocity, to_nose) <= 0) return at_nose;
  return rebounded(at_nose, ball, to_nose, Support::air, table.cushion, table.cloth);
}

BallState off_nose_on_the_bed(BallState state, const Runner& runner, Vec2 nose,
                              const Table& table) {
  const Vec2 way = nose - plan(state.position);
  const double way_m = norm(way);
  const Vec2 toward = way / way_m;
  if (runner.reach_m > way_m) state.position -= lift((runner.reach_m - way_m) * toward);
  const Tilt tilt = nose_tilt(runner.ball, table.nose_height_m);
  const double closing = tilt.cos * dot(plan(state.velocity), toward);
  if (closing <= 0) return state;
  if (closing >= dead_contact_mps && phase_of(state, runner.ball) == Phase::rolling) {
    return runner.rebound.rebounded(state, toward);
  }
  return rebounded(state, runner.ball, lift(tilt.cos * toward, tilt.sin), Support::bed,
                   table.cushion, table.cloth);
}

}  // namespace

BallState off_nose(const BallState& at_nose, const Runner& runner, Vec2 nose, const Table& table) {
  const bool in_the_air = phase_of(at_nose, runner.ball) == Phase::airborne;
  return settled_on_bed(in_the_air ? off_nose_in_the_air(at_nose, runner.ball, nose, table)
                                   : off_nose_on_the_bed(at_nose, runner, nose, table),
                        runner.ball, table.cloth);
}

}  // namespace ahead::engine
