#include "engine/motion/nap.h"

#include <algorithm>
#include <cmath>

namespace ahead::engine {
namespace {

/// How far the parabola from one exact velocity to the next would miss the end of a stride, m,
/// before that is put right. A metre of slow roll across a strong nap is a hundred strides or so.
constexpr double miss_m = 1e-7;

/// Integral of e^(-k s) for s from 0 to tau.
double spent(double k, double tau) { return -std::expm1(-k * tau) / k; }

}  // namespace

Stride stride_over_nap(Vec2 velocity, const Cloth& cloth) {
  const double a = cloth.rolling * gravity_mps2;
  const double share = cloth.nap / cloth.rolling;
  const double speed = norm(velocity);
  const double P = 0.5 * (speed + velocity.y);
  const double M = 0.5 * (speed - velocity.y);

  // The acceleration turns at a b |v_x| / |v|^2. The chord of a velocity that bends so for a time t
  // misses a b |v_x| t^3 / (12 |v|^2) of the way.
  const double bend = share * std::abs(velocity.x) * speed / (12 * a);
  if (6 * bend <= miss_m) {
    // So slow or so straight that all the rest of the roll is one stride.
    const double lasts_s = (P / (1 - share) + M / (1 + share)) / a;
    return {.lasts_s = lasts_s, .acceleration_mps2 = -velocity / lasts_s, .ends_mps = {}};
  }
  // Never more than half of the speed at once, as the bend quickens while it falls.
  const double tau = std::min(std::cbrt(miss_m / bend), 0.5);
  const double t = (P * spent(1 - share, tau) + M * spent(1 + share, tau)) / a;
  const double P_later = P * std::exp(-(1 - share) * tau);
  const double M_later = M * std::exp(-(1 + share) * tau);
  const Vec2 later{velocity.x * std::exp(-tau), P_later - M_later};
  const Vec2 way{velocity.x * (P * spent(2 - share, tau) + M * spent(2 + share, tau)) / a,
                 (P * P * spent(2 - 2 * share, tau) - M * M * spent(2 + 2 * share, tau)) / a};

  // Square to the velocity at the end, the miss is put right by a little more acceleration.
  const Vec2 square = unit(left_of(later));
  const double missed = dot(way - 0.5 * t * (velocity + later), square);
  return {.lasts_s = t,
          .acceleration_mps2 = (later - velocity) / t + (2 * missed / (t * t)) * square,
          .ends_mps = later};
}

}  // namespace ahead::engine
