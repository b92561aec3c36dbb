#pragma once

#include "engine/equipment/ball.h"
#include "engine/equipment/surfaces.h"
#include "engine/geometry/vec.h"
#include "engine/motion/ball_state.h"

/// The impact of a ball on the bed with the nose, by what slips and what pushes.
///
/// Friction at the two contacts acts against the slips there, and the slips change by friction and
/// by the normal impulse alone: four numbers carry the whole impact. They are integrated in the
/// normal impulse; the impulses follow from what the slips have become, and the ball from those.
///
/// Frame: x level towards the nose, y level along it (left of x), z up. The contact lies at
/// c = cos x + sin z from the centre; its plane is spanned by y and by "up the nose",
/// cos z - sin x. Impulses are per unit mass.
///
/// Source: Mathavan, Jackson and Parkin, Proc. IMechE C 224 (2010) 1863, with v_z held at 0;
/// docs/physics.md, E1.
namespace ahead::engine {

/// How high the nose touches: sin = (h - R)/R.
struct Tilt {
  double sin = 0;
  double cos = 1;
};

[[nodiscard]] Tilt nose_tilt(const Ball& ball, double nose_height_m);

/// How the ball's surface moves over what it touches, m/s.
struct Slips {
  Vec2 nose;  ///< along the nose, up the nose
  Vec2 bed;   ///< towards the nose, along it
};

/// What nose and bed gave to the ball, m/s; components as in Slips.
struct Impulses {
  double normal = 0;  ///< away from the nose, along -c
  Vec2 nose;
  Vec2 bed;
};

/// `toward` is the unit vector in plan from the ball's centre to the nose.
[[nodiscard]] Slips slips_at_nose(const BallState& state, const Ball& ball, Vec2 toward, Tilt tilt);

/// The whole impact, compression and restitution, of a ball that closes at 1 m/s (the impact
/// scales with speed) with the slips `first`. Converged to 2e-5.
[[nodiscard]] Impulses nose_impulses(const Slips& first, Tilt tilt, const Cushion& cushion,
                                     const Cloth& cloth);

[[nodiscard]] BallState pushed(const BallState& before, const Ball& ball, Vec2 toward, Tilt tilt,
                               const Impulses& impulses);

}  // namespace ahead::engine
