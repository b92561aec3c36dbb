#include "tests/support/random_impact.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ahead::test {

using namespace engine;  // NOLINT(google-build-using-namespace): the test speaks of nothing else

Vec3 nose_direction(double around_rad, double sin_theta) {
  return lift(std::sqrt(1 - sin_theta * sin_theta) * direction(around_rad), sin_theta);
}

Impact random_impact(Dice& dice, Support support) {
  constexpr double pi = std::numbers::pi;
  Impact i{.ball = {.radius_m = dice.between(0.0235, 0.029), .mass_kg = dice.between(0.09, 0.17)}};
  i.support = support;
  const double towards = dice.between(-pi, pi);
  const double sin_theta =
      support == Support::bed ? dice.between(0.2, 0.42) : dice.between(-0.95, 0.5);
  i.to_nose = nose_direction(towards, sin_theta);
  const double v = dice.between(0.3, 4);
  i.before.position = {0, 0, i.ball.radius_m};
  i.before.velocity = lift(v * direction(towards + dice.between(-1.45, 1.45)));
  if (support == Support::air) i.before.velocity.z = dice.between(-2, 2);
  const double turn = 1.5 * v / i.ball.radius_m;
  i.before.spin = {dice.between(-turn, turn), dice.between(-turn, turn), dice.between(-turn, turn)};
  i.cushion = {.restitution = dice.between(0.7, 0.98), .friction = dice.between(0.05, 0.3)};
  i.cloth.sliding = dice.between(0.1, 0.3);
  return i;
}

double closing_mps(const Impact& impact) { return dot(impact.before.velocity, impact.to_nose); }

BallState after(const Impact& impact) {
  return rebounded(impact.before, impact.ball, impact.to_nose, impact.support, impact.cushion,
                   impact.cloth);
}

double difference(const BallState& a, const BallState& b, const Impact& impact) {
  const Vec3 v = a.velocity - b.velocity;
  const Vec3 w = impact.ball.radius_m * (a.spin - b.spin);
  return std::max({std::abs(v.x), std::abs(v.y), std::abs(v.z), std::abs(w.x), std::abs(w.y),
                   std::abs(w.z)}) /
         norm(impact.before.velocity);
}

}  // namespace ahead::test
