#pragma once

#include "engine/contact/cushion.h"
#include "tests/support/dice.h"

/// Balls that meet a cushion in ways that nobody would think of.
namespace ahead::test {

struct Impact {
  engine::BallState before;
  engine::Ball ball;
  engine::Vec3 to_nose;
  engine::Support support = engine::Support::bed;
  engine::Cushion cushion;
  engine::Cloth cloth;
};

/// Unit vector to a nose in the direction `around_rad` whose sine of elevation is `sin_theta`.
[[nodiscard]] engine::Vec3 nose_direction(double around_rad, double sin_theta);

/// Any approach: square to shallow, any spin that a ball can bring, on the bed or in the air.
[[nodiscard]] Impact random_impact(Dice& dice, engine::Support support);

[[nodiscard]] double closing_mps(const Impact& impact);

/// The engine's answer.
[[nodiscard]] engine::BallState after(const Impact& impact);

/// Largest difference in any component, spin as surface speed, as a share of the incoming speed.
[[nodiscard]] double difference(const engine::BallState& a, const engine::BallState& b,
                                const Impact& impact);

}  // namespace ahead::test
