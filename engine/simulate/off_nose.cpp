#include "engine/simulate/off_nose.h"

#include <cmath>

#include "engine/contact/cushion.h"
#include "engine/contact/landing.h"
#include "engine/motion/motion.h"

namespace ahead::engine {

BallState off_nose(const BallState& at_nose, const Ball& ball, Vec2 nose, const Table& table) {
  BallState state = at_nose;
  const bool on_bed = phase_of(at_nose, ball) != Phase::airborne;
  Vec3 to_nose = unit(lift(nose, table.nose_height_m) - state.position);
  if (on_bed) {
    const Vec2 level = unit(nose - plan(state.position));
    const double sin_t = (table.nose_height_m - ball.radius_m) / ball.radius_m;
    to_nose = lift(std::sqrt(1 - sin_t * sin_t) * level, sin_t);
    const double sunk_m =
        nose_reach_m(ball, table.nose_height_m) - norm(nose - plan(state.position));
    if (sunk_m > 0) state.position -= lift(sunk_m * level);
  }
  if (dot(state.velocity, to_nose) > 0) {
    state = rebounded(state, ball, to_nose, on_bed ? Support::bed : Support::air, table.cushion,
                      table.cloth);
  }
  return settled_on_bed(state, ball, table.cloth);
}

}  // namespace ahead::engine
