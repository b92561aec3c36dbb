#include "engine/contact/landing.h"

#include <algorithm>

#include "engine/motion/motion.h"

namespace ahead::engine {

BallState landed(const BallState& before, const Ball& ball, const Cloth& cloth) {
  const double down = -before.velocity.z;
  if (down <= 0) return before;
  const double rebound = cloth.bed_restitution * down;
  BallState after = before;
  after.velocity.z = rebound < cloth.hop_speed_mps ? 0.0 : rebound;

  const Vec2 u = slip(before, ball);
  const double speed = norm(u);
  if (speed <= 0) return after;
  // Impulse per unit mass, against the slip; its arm is the radius down to the lowest point.
  const double push = std::min(cloth.sliding * (down + after.velocity.z), (2.0 / 7.0) * speed);
  const Vec2 along = u / speed;
  after.velocity -= lift(push * along);
  const Vec2 turn = (2.5 * push / ball.radius_m) * left_of(along);
  after.spin += lift(turn);
  return after;
}

BallState settled_on_bed(const BallState& after_impact, const Ball& ball, const Cloth& cloth) {
  if (after_impact.position.z > ball.radius_m + 1e-12) return after_impact;
  if (after_impact.velocity.z < 0) return landed(after_impact, ball, cloth);
  BallState state = after_impact;
  if (state.velocity.z < cloth.hop_speed_mps) state.velocity.z = 0;
  return state;
}

}  // namespace ahead::engine
