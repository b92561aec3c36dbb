#include "engine/contact/ball_ball.h"

#include <algorithm>
#include <cmath>

namespace ahead::engine {

double ball_friction(const BallContact& contact, double slip_mps) {
  return contact.friction_a + contact.friction_b * std::exp(-contact.friction_c * slip_mps);
}

Vec3 surface_slip(const BallState& first, const Ball& first_ball, const BallState& second,
                  const Ball& second_ball, Vec3 n) {
  const Vec3 turning = first_ball.radius_m * first.spin + second_ball.radius_m * second.spin;
  return tangential(first.velocity - second.velocity + cross(turning, n), n);
}

void apply_impulse(BallState& first, const Ball& first_ball, BallState& second,
                   const Ball& second_ball, Vec3 n, Vec3 push) {
  first.velocity += push / first_ball.mass_kg;
  second.velocity -= push / second_ball.mass_kg;
  const Vec3 twist = cross(n, push);
  first.spin += (first_ball.radius_m / inertia(first_ball)) * twist;
  second.spin += (second_ball.radius_m / inertia(second_ball)) * twist;
}

std::pair<BallState, BallState> collided(const BallState& first, const Ball& first_ball,
                                         const BallState& second, const Ball& second_ball,
                                         const BallContact& contact) {
  const Vec3 n = unit(second.position - first.position);
  const double reduced_kg =
      first_ball.mass_kg * second_ball.mass_kg / (first_ball.mass_kg + second_ball.mass_kg);
  const double closing = dot(first.velocity - second.velocity, n);
  const double e = closing < dead_contact_mps ? 0.0 : contact.restitution;
  const double J = (1.0 + e) * reduced_kg * closing;

  const Vec3 s = surface_slip(first, first_ball, second, second_ball, n);
  const double slip_mps = norm(s);
  Vec3 push = -J * n;
  if (slip_mps > 0) {
    const double T =
        std::min(ball_friction(contact, slip_mps) * J, (2.0 / 7.0) * reduced_kg * slip_mps);
    push -= (T / slip_mps) * s;
  }
  std::pair after{first, second};
  apply_impulse(after.first, first_ball, after.second, second_ball, n, push);
  return after;
}

}  // namespace ahead::engine
