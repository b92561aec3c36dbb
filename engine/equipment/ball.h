#pragma once

/// A ball: a solid uniform sphere.
namespace ahead::engine {

struct Ball {
  double radius_m = 0.0254;
  double mass_kg = 0.116;

  friend bool operator==(const Ball&, const Ball&) = default;
};

/// Moment of inertia of a solid sphere about its centre, kg m^2: 2/5 m R^2.
[[nodiscard]] constexpr double inertia(const Ball& ball) {
  return 0.4 * ball.mass_kg * ball.radius_m * ball.radius_m;
}

/// How two balls answer each other. Friction falls with the slip speed s (m/s) as a + b exp(-c s).
///
/// Source of the friction law: fit to Marlow, The Physics of Pocket Billiards (1995), as given in
/// docs/physics.md, A2. Young's modulus and Poisson's ratio serve groups of touching balls.
struct BallContact {
  double restitution = 0.94;
  double friction_a = 0.00995;
  double friction_b = 0.108;
  double friction_c = 1.088;
  double young_gpa = 5.84;
  double poisson = 0.34;

  friend bool operator==(const BallContact&, const BallContact&) = default;
};

}  // namespace ahead::engine
