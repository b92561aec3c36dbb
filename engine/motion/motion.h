#pragma once

#include "engine/equipment/ball.h"
#include "engine/equipment/surfaces.h"
#include "engine/motion/ball_state.h"

/// A ball between events, in closed form.
///
/// Sliding: friction mu m g opposes the slip u of the ball's lowest point. The direction of u never
/// changes, so the path is a parabola and the end of the slide is known in advance. Rolling: a
/// straight line, slowing at mu_r g, with spin tied to speed. Airborne: free flight. In each, the
/// spin about the vertical decays by itself on the cloth. Nothing is integrated.
///
/// On napped cloth a roll across the nap bends, and is a chain of phases: see nap.h.
///
/// Source: rigid-body theory after Coriolis (1835); docs/physics.md, B1 to B4.
/// Frame and units: SI, z up. Pure functions, no failure, no allocation.
namespace ahead::engine {

/// Slip below which a ball counts as rolling, m/s: far below anything that moves a ball by 1 nm.
inline constexpr double rolling_slip_mps = 1e-9;
/// Speed below which a rolling ball counts as stopped, m/s: it would run 0.05 nm further.
inline constexpr double stopped_mps = 1e-6;

/// Velocity of the ball's lowest point over the cloth, m/s. Zero exactly when the ball rolls.
[[nodiscard]] constexpr Vec2 slip(const BallState& state, const Ball& ball) {
  return {state.velocity.x - ball.radius_m * state.spin.y,
          state.velocity.y + ball.radius_m * state.spin.x};
}

/// Velocity that the ball will have when the slide ends, m/s: (5/7) v + (2/7) R (w x z).
/// Independent of friction and gravity; no push at the cloth can change it.
[[nodiscard]] constexpr Vec2 rolling_velocity_to_come(const BallState& state, const Ball& ball) {
  return plan(state.velocity) - (2.0 / 7.0) * slip(state, ball);
}

/// The law that the ball obeys now.
[[nodiscard]] Phase phase_of(const BallState& state, const Ball& ball);

/// How long the phase lasts if nothing is met, s. Infinite for rest.
/// Sliding 2|u| / (7 mu g); rolling |v| / (mu_r g), on nap until the next phase of the roll;
/// spinning |w_z| / alpha; airborne until z = R.
[[nodiscard]] double phase_duration_s(Phase phase, const BallState& state, const Ball& ball,
                                      const Cloth& cloth);

/// Acceleration of the centre, constant within the phase that begins as `state`, m/s^2.
[[nodiscard]] Vec3 acceleration(Phase phase, const BallState& state, const Ball& ball,
                                const Cloth& cloth);

/// The ball `t_s` later in the phase that begins as `state`. Requires 0 <= t_s <=
/// phase_duration_s(...).
[[nodiscard]] BallState advance(Phase phase, const BallState& state, const Ball& ball,
                                const Cloth& cloth, double t_s);

/// The same where the phase's acceleration() is known already.
[[nodiscard]] BallState advance(Phase phase, const BallState& state, Vec3 acceleration,
                                const Ball& ball, const Cloth& cloth, double t_s);

/// The ball at the end of its phase, with the next law's conditions met exactly: a ball that ends
/// its slide rolls without slip, one that ends its roll stands still.
[[nodiscard]] BallState at_phase_end(Phase phase, const BallState& state, const Ball& ball,
                                     const Cloth& cloth, double duration_s);

/// Kinetic energy of translation and rotation plus potential energy above the bed, J.
[[nodiscard]] double energy_j(const BallState& state, const Ball& ball);

}  // namespace ahead::engine
