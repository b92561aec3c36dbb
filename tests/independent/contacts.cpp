#include "tests/independent/contacts.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>

#include <boost/math/tools/toms748_solve.hpp>
#include <boost/numeric/odeint.hpp>

namespace ahead::independent {
namespace {

using engine::Vec2;
using engine::Vec3;
namespace odeint = boost::numeric::odeint;

/// Below this closing speed nothing is given back, m/s.
constexpr double dead_mps = 1e-4;
constexpr Vec3 down{0, 0, -1};

// The impact's unknowns, in units of the closing speed: velocity, spin times radius, and the work
// done on the nose. The independent variable is the normal impulse over mass and closing speed.
using State = std::array<double, 7>;
constexpr std::size_t work = 6;

Vec3 velocity(const State& x) { return {x[0], x[1], x[2]}; }
Vec3 turning(const State& x) { return {x[3], x[4], x[5]}; }

/// Slip of the point at `arm` (unit vector from the centre), square to `arm`.
Vec3 slip(const State& x, Vec3 arm) {
  const Vec3 v = velocity(x) + cross(turning(x), arm);
  return v - dot(v, arm) * arm;
}

/// Coulomb friction with a soft passage through zero, as a push per unit of normal impulse.
Vec3 friction(Vec3 slip, double mu, double soft) {
  return (-mu / std::sqrt(dot(slip, slip) + soft * soft)) * slip;
}

struct Nose {
  Vec3 c;
  bool on_bed = false;
  double mu_nose = 0;
  double mu_bed = 0;
  double soft = 0;

  void operator()(const State& x, State& rate, double /*p*/) const {
    const Vec3 rub = friction(slip(x, c), mu_nose, soft);
    Vec3 push = rub - c;
    Vec3 twist = 2.5 * cross(c, rub);
    if (on_bed) {
      const Vec3 drag = std::max(0.0, -push.z) * friction(slip(x, down), mu_bed, soft);
      push += drag;
      push.z = 0;
      twist += 2.5 * cross(down, drag);
    }
    rate = {push.x, push.y, push.z, twist.x, twist.y, twist.z, dot(velocity(x), c)};
  }
};

/// Follows the impact until `left`, which falls, has fallen to zero; sets `x` and `p` to that
/// moment.
template <typename Left>
void follow(const Nose& nose, State& x, double& p, double tolerance, Left left) {
  auto stepper =
      odeint::make_dense_output(tolerance, tolerance, odeint::runge_kutta_dopri5<State>());
  stepper.initialize(x, p, 1e-4);
  for (;;) {
    const auto [from, to] = stepper.do_step(nose);
    if (left(stepper.current_state()) > 0) continue;
    const auto left_at = [&stepper, &left](double at) {
      State there;
      stepper.calc_state(at, there);
      return left(there);
    };
    std::uintmax_t rounds = 100;
    p = boost::math::tools::toms748_solve(left_at, from, to,
                                          boost::math::tools::eps_tolerance<double>(50), rounds)
            .second;
    stepper.calc_state(p, x);
    return;
  }
}

}  // namespace

engine::BallState landed(engine::BallState ball, const engine::Ball& of,
                         const engine::Cloth& cloth) {
  const double R = of.radius_m;
  const double falls = -ball.velocity.z;
  const double bounce = cloth.bed_restitution * falls;
  ball.velocity.z = bounce < cloth.hop_speed_mps ? 0 : bounce;
  const Vec2 u{ball.velocity.x - R * ball.spin.y, ball.velocity.y + R * ball.spin.x};
  const double size = std::hypot(u.x, u.y);
  if (size == 0) return ball;
  // Impulse over mass.
  const double J = falls + ball.velocity.z;
  const double rub = std::min(cloth.sliding * J, 2.0 / 7.0 * size);
  const Vec3 push = lift((-rub / size) * u);
  ball.velocity += push;
  ball.spin += (2.5 / R) * cross(down, push);
  return ball;
}

void collide(engine::BallState& first, const engine::Ball& first_ball, engine::BallState& second,
             const engine::Ball& second_ball, const engine::BallContact& contact) {
  const double m1 = first_ball.mass_kg;
  const double m2 = second_ball.mass_kg;
  const double R1 = first_ball.radius_m;
  const double R2 = second_ball.radius_m;
  const Vec3 between = second.position - first.position;
  const Vec3 n = between / std::sqrt(dot(between, between));
  const Vec3 closing = first.velocity - second.velocity;
  const double v_n = dot(closing, n);
  const Vec3 relative = closing + cross(R1 * first.spin + R2 * second.spin, n);
  const Vec3 s = relative - dot(relative, n) * n;
  const double size = std::sqrt(dot(s, s));
  const double reduced = m1 * m2 / (m1 + m2);
  const double e = v_n < dead_mps ? 0 : contact.restitution;
  const double J = (1 + e) * reduced * v_n;
  const double mu = contact.friction_a + contact.friction_b * std::exp(-contact.friction_c * size);
  const double T = std::min(mu * J, 2.0 / 7.0 * reduced * size);
  const Vec3 along = size > 0 ? s / size : Vec3{};
  first.velocity += (-J / m1) * n - (T / m1) * along;
  second.velocity += (J / m2) * n + (T / m2) * along;
  first.spin -= (T / (0.4 * m1 * R1)) * cross(n, along);
  second.spin -= (T / (0.4 * m2 * R2)) * cross(n, along);
}

engine::BallState rebounded(const engine::BallState& before, const engine::Ball& of, Vec3 to_nose,
                            bool on_bed, const engine::Cushion& cushion, const engine::Cloth& cloth,
                            const Solution& how) {
  const double unit_mps = dot(before.velocity, to_nose);
  const Nose nose{.c = to_nose,
                  .on_bed = on_bed,
                  .mu_nose = cushion.friction,
                  .mu_bed = cloth.sliding,
                  .soft = how.soft_slip};
  const Vec3 v = before.velocity / unit_mps;
  const Vec3 turn = (of.radius_m / unit_mps) * before.spin;
  State x{v.x, v.y, v.z, turn.x, turn.y, turn.z, 0};
  double p = 0;
  follow(nose, x, p, how.tolerance, [&](const State& now) { return dot(velocity(now), to_nose); });
  const double e = unit_mps < dead_mps ? 0 : cushion.restitution;
  const double kept = (1 - e * e) * x[work];
  if (e > 0) {
    follow(nose, x, p, how.tolerance, [&](const State& now) { return now[work] - kept; });
  }
  engine::BallState after = before;
  after.velocity = unit_mps * velocity(x);
  after.spin = (unit_mps / of.radius_m) * turning(x);
  return after;
}

}  // namespace ahead::independent
