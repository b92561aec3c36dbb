#include "tests/support/plain_cushion.h"

#include <algorithm>
#include <cmath>

namespace ahead::test {

using namespace engine;  // NOLINT(google-build-using-namespace): the model in its own words

BallState rebounded_in_plain_steps(const BallState& before, const Ball& ball, Vec3 to_nose,
                                   Support support, const Cushion& cushion, const Cloth& cloth,
                                   int steps) {
  const double R = ball.radius_m;
  const Vec3 c = to_nose;
  const bool on_bed = support == Support::bed;
  const double closing = dot(before.velocity, c);
  const double dp = closing / steps;
  Vec3 v = before.velocity;
  Vec3 w = before.spin;

  const auto step = [&] {
    const Vec3 s = tangential(v + cross(w, R * c), c);
    const double slip_mps = norm(s);
    Vec3 push = -dp * c;
    if (slip_mps > 0) {
      push -= (std::min(cushion.friction * dp, 2.0 / 7.0 * slip_mps) / slip_mps) * s;
    }
    Vec3 drag;
    if (on_bed) {
      const Vec2 u{v.x - R * w.y, v.y + R * w.x};
      const double rub = std::min(cloth.sliding * std::max(0.0, -push.z), 2.0 / 7.0 * norm(u));
      drag = lift(-rub * unit(u));
    }
    v += push + drag;
    if (on_bed) v.z = 0;
    w += (2.5 / R) * (cross(c, push) + cross(Vec3{0, 0, -1}, drag));
  };

  double work = 0;
  while (dot(v, c) > 0) {
    const double in = dot(v, c);
    step();
    work += 0.5 * (in + dot(v, c)) * dp;
  }
  const double e = cushion.restitution;
  for (double owed = e * e * work; owed > 0;) {
    const double out = -dot(v, c);
    step();
    owed -= 0.5 * (out - dot(v, c)) * dp;
  }
  BallState after = before;
  after.velocity = v;
  after.spin = w;
  return after;
}

}  // namespace ahead::test
