#pragma once

#include "engine/equipment/surfaces.h"
#include "engine/geometry/vec.h"

/// A ball that rolls on napped cloth.
///
/// The nap runs up the table (+y) and pulls the rolling ball along: dv/dt = -a v/|v| + b y, with
/// a = rolling * g and b = nap * g. With the nap the ball runs v^2 / (2 (a - b)), against it
/// v^2 / (2 (a + b)), and across it the path bends up the table, the more the slower the ball. A
/// ball at rest stays there. b <= a/2, so the pull takes back no more than half of what rolling
/// costs, and energy falls.
///
/// With P = (|v| + v_y) / 2, M = (|v| - v_y) / 2 and tau rising as d tau = a dt / |v|:
///   v_x = v_x0 e^(-tau), P = P0 e^(-(1 - b/a) tau), M = M0 e^(-(1 + b/a) tau),
/// and t, x and y are sums of such powers. That is no polynomial in t, which the search for
/// contacts needs, so the roll is cut into strides of constant acceleration: parabolas that stray
/// by less than 0.1 um, each from the exact velocity and place at its start to the exact place at
/// its end. There the velocity is set to the exact one, which turns it by some 1e-6 and takes
/// energy, never gives it.
///
/// Source: the body on a rough slope, a classic of mechanics; the model is an assumption, since no
/// coefficient of a nap has been published (docs/physics.md, B5). Pure, no failure.
namespace ahead::engine {

/// One stride of a roll.
struct Stride {
  double lasts_s = 0;
  Vec2 acceleration_mps2;
  Vec2 ends_mps;  ///< velocity at its end; zero when the ball then stands
};

/// The stride that a ball rolling at `velocity` (not zero) begins. Requires 0 < cloth.nap.
[[nodiscard]] Stride stride_over_nap(Vec2 velocity, const Cloth& cloth);

}  // namespace ahead::engine
