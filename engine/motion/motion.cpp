#include "engine/motion/motion.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

#include "engine/motion/nap.h"

namespace ahead::engine {
namespace {

/// Spin about the vertical after `t_s` of decay; it never changes its sense.
double decayed(double spin_z, const Cloth& cloth, double t_s) {
  const double left = std::abs(spin_z) - cloth.spin_decay_radps2 * t_s;
  return left > 0 ? std::copysign(left, spin_z) : 0.0;
}

/// Horizontal spin of a ball that rolls at `velocity`: z x v / R.
Vec2 rolling_spin(Vec2 velocity, const Ball& ball) { return left_of(velocity) / ball.radius_m; }

BallState with_rolling_spin(BallState state, const Ball& ball) {
  const Vec2 spin = rolling_spin(plan(state.velocity), ball);
  state.spin.x = spin.x;
  state.spin.y = spin.y;
  return state;
}

}  // namespace

Phase phase_of(const BallState& state, const Ball& ball) {
  if (state.velocity.z > 0 || state.position.z > ball.radius_m + 1e-12) return Phase::airborne;
  if (norm(slip(state, ball)) > rolling_slip_mps) return Phase::sliding;
  if (norm(plan(state.velocity)) > stopped_mps) return Phase::rolling;
  return state.spin.z != 0 ? Phase::spinning : Phase::rest;
}

double phase_duration_s(Phase phase, const BallState& state, const Ball& ball, const Cloth& cloth) {
  switch (phase) {
    case Phase::sliding:
      return 2.0 * norm(slip(state, ball)) / (7.0 * cloth.sliding * gravity_mps2);
    case Phase::rolling:
      if (cloth.nap > 0) return stride_over_nap(plan(state.velocity), cloth).lasts_s;
      return norm(plan(state.velocity)) / (cloth.rolling * gravity_mps2);
    case Phase::spinning:
      return std::abs(state.spin.z) / cloth.spin_decay_radps2;
    case Phase::airborne: {
      const double height_m = std::max(0.0, state.position.z - ball.radius_m);
      const double up = state.velocity.z;
      return (up + std::sqrt(up * up + 2 * gravity_mps2 * height_m)) / gravity_mps2;
    }
    case Phase::rest:
      break;
  }
  return std::numeric_limits<double>::infinity();
}

Vec3 acceleration(Phase phase, const BallState& state, const Ball& ball, const Cloth& cloth) {
  switch (phase) {
    case Phase::sliding:
      return lift(-cloth.sliding * gravity_mps2 * unit(slip(state, ball)));
    case Phase::rolling:
      if (cloth.nap > 0)
        return lift(stride_over_nap(plan(state.velocity), cloth).acceleration_mps2);
      return lift(-cloth.rolling * gravity_mps2 * unit(plan(state.velocity)));
    case Phase::airborne:
      return {0, 0, -gravity_mps2};
    case Phase::spinning:
    case Phase::rest:
      break;
  }
  return {};
}

BallState advance(Phase phase, const BallState& state, const Ball& ball, const Cloth& cloth,
                  double t_s) {
  return advance(phase, state, acceleration(phase, state, ball, cloth), ball, cloth, t_s);
}

BallState advance(Phase phase, const BallState& state, Vec3 a, const Ball& ball, const Cloth& cloth,
                  double t_s) {
  if (phase == Phase::rest) return state;
  BallState later = state;
  later.position = state.position + t_s * (state.velocity + 0.5 * t_s * a);
  later.velocity = state.velocity + t_s * a;
  if (phase == Phase::airborne) return later;
  later.spin.z = decayed(state.spin.z, cloth, t_s);
  if (phase == Phase::rolling) return with_rolling_spin(later, ball);
  if (phase == Phase::sliding) {
    // dw/dt = (5 mu g / 2R) (z x u/|u|), and the acceleration is -mu g u/|u|.
    const Vec2 turn = (2.5 / ball.radius_m) * left_of(-plan(a));
    later.spin.x += t_s * turn.x;
    later.spin.y += t_s * turn.y;
  }
  return later;
}

BallState at_phase_end(Phase phase, const BallState& state, const Ball& ball, const Cloth& cloth,
                       double duration_s) {
  BallState end = advance(phase, state, ball, cloth, duration_s);
  switch (phase) {
    case Phase::sliding: {
      const Vec2 velocity = rolling_velocity_to_come(state, ball);
      end.velocity = lift(norm(velocity) > stopped_mps ? velocity : Vec2{});
      return with_rolling_spin(end, ball);
    }
    case Phase::rolling:
      end.velocity = {};
      if (cloth.nap > 0) {
        end.velocity = lift(stride_over_nap(plan(state.velocity), cloth).ends_mps);
      }
      return with_rolling_spin(end, ball);
    case Phase::spinning:
      end.spin = {};
      return end;
    case Phase::airborne:
      end.position.z = ball.radius_m;
      return end;
    case Phase::rest:
      break;
  }
  return end;
}

double energy_j(const BallState& state, const Ball& ball) {
  const double height_m = state.position.z - ball.radius_m;
  return 0.5 * ball.mass_kg * dot(state.velocity, state.velocity) +
         0.5 * inertia(ball) * dot(state.spin, state.spin) + ball.mass_kg * gravity_mps2 * height_m;
}

}  // namespace ahead::engine
