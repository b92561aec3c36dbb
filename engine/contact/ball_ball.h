#pragma once

#include <utility>

#include "engine/equipment/ball.h"
#include "engine/motion/ball_state.h"

/// Two balls meet.
///
/// Along the line of centres n a restitution impulse J = (1 + e) m' v_n; across it friction of
/// min(mu(|s|) J, 2/7 m' |s|) against the slip s of the surfaces, m' the reduced mass. Radii and
/// masses may differ; n tilts when the balls differ in size or one is in the air.
///
/// Source: rigid-body impact, docs/physics.md, D1; the friction law after Marlow (1995).
namespace ahead::engine {

/// Closing speed below which no contact gives anything back, m/s, so that contacts end.
inline constexpr double dead_contact_mps = 1e-4;

/// Friction coefficient at the slip speed `slip_mps`.
[[nodiscard]] double ball_friction(const BallContact& contact, double slip_mps);

/// Slip of the first ball's surface over the second's at their contact, m/s; n from first to
/// second.
[[nodiscard]] Vec3 surface_slip(const BallState& first, const Ball& first_ball,
                                const BallState& second, const Ball& second_ball, Vec3 n);

/// Both balls after they have met, before the bed answers (landing.h).
/// Requires that they approach each other.
[[nodiscard]] std::pair<BallState, BallState> collided(const BallState& first,
                                                       const Ball& first_ball,
                                                       const BallState& second,
                                                       const Ball& second_ball,
                                                       const BallContact& contact);

/// Changes both balls by the impulse `push` (N s) that acts on the first at its contact.
void apply_impulse(BallState& first, const Ball& first_ball, BallState& second,
                   const Ball& second_ball, Vec3 n, Vec3 push);

}  // namespace ahead::engine
