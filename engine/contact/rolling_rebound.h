#pragma once

#include <vector>

#include "engine/contact/nose_impact.h"

/// The rebound of a rolling ball, from a table made once for a ball and a cushion.
///
/// A rolling ball does not slip on the bed, and up the nose it slips by (1 + sin t)/cos t of its
/// closing speed, always. Only the slip along the nose is free, so all rolling rebounds of a ball,
/// at any angle, speed and side, lie on one curve. Most balls that reach a cushion roll.
///
/// The curve is sampled by nose_impulses() and read by straight lines in between; it agrees with
/// rebounded() to 5e-6 of the incoming speed (tests/engine/rolling_rebound_test.cpp).
namespace ahead::engine {

class RollingRebound {
 public:
  RollingRebound(const Ball& ball, double nose_height_m, const Cushion& cushion,
                 const Cloth& cloth);

  /// What rebounded() gives for a ball on the bed. `toward` is the unit vector in plan from the
  /// ball's centre to the nose. Requires that the ball rolls without slip, and approaches.
  [[nodiscard]] BallState rebounded(const BallState& before, Vec2 toward) const;

 private:
  [[nodiscard]] Impulses impulses(double slip_along) const;

  Ball ball_;
  Tilt tilt_;
  std::vector<Impulses> curve_;  ///< for slips from none to endless along the nose
};

}  // namespace ahead::engine
