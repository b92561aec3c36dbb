#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/contact/landing.h"
#include "engine/contact/strike.h"
#include "engine/motion/motion.h"
#include "tests/published/check_rows.h"
#include "tests/support/search.h"

// Rows B (motion on the cloth) and G (measuring a cloth by a rolling ball).
namespace ahead::test {
namespace {

using namespace engine;  // NOLINT(google-build-using-namespace): the rows speak of nothing else

constexpr Ball ball{.radius_m = 0.0254, .mass_kg = 0.116};
constexpr double degrees = std::numbers::pi / 180;

Cloth cloth_of(double sliding) { return {.sliding = sliding}; }

/// Launched along x with roll ratio k.
BallState launched(double v_mps, double k) {
  return {.position = {0, 0, ball.radius_m},
          .velocity = {v_mps, 0, 0},
          .spin = {0, k * v_mps / ball.radius_m, 0}};
}

double slide_s(const BallState& state, const Cloth& cloth) {
  return phase_duration_s(Phase::sliding, state, ball, cloth);
}

BallState slide_end(const BallState& state, const Cloth& cloth) {
  return at_phase_end(Phase::sliding, state, ball, cloth, slide_s(state, cloth));
}

/// Where the back spin of a strike below the centre has just worn off, m.
double distance_to_stun_m(double height) {
  const Cloth cloth = cloth_of(0.2);
  const BallState state = launched(2, 2.5 * height);
  const auto at = [&](double t_s) { return advance(Phase::sliding, state, ball, cloth, t_s); };
  const double t_s = zero_of([&](double t) { return at(t).spin.y; }, 0, slide_s(state, cloth));
  return at(t_s).position.x;
}

double roll_ratio_after_m(double height, double distance_m) {
  const Cloth cloth = cloth_of(0.2);
  const BallState state = launched(2, 2.5 * height);
  const auto at = [&](double t_s) { return advance(Phase::sliding, state, ball, cloth, t_s); };
  const double t_s =
      zero_of([&](double t) { return at(t).position.x - distance_m; }, 0, slide_s(state, cloth));
  return ball.radius_m * at(t_s).spin.y / at(t_s).velocity.x;
}

/// The ball of rows B16 to B18.
BallState skewed() {
  return {.position = {0, 0, ball.radius_m}, .velocity = {2, 0, 0}, .spin = {30, -20, 40}};
}

double rolling_distance_m(const BallState& rolling, const Cloth& cloth) {
  const double t_s = phase_duration_s(Phase::rolling, rolling, ball, cloth);
  const BallState end = at_phase_end(Phase::rolling, rolling, ball, cloth, t_s);
  return norm(end.position - rolling.position);
}

double bounced_speed_mps(double v_mps) {
  const BallState before{.position = {0, 0, ball.radius_m}, .velocity = {v_mps, 0, -1}};
  return landed(before, ball, cloth_of(0.2)).velocity.x;
}

double rebound_height_m(double drop_m) {
  const Cloth cloth;
  const BallState held{.position = {0, 0, ball.radius_m + drop_m}};
  const double fall_s = phase_duration_s(Phase::airborne, held, ball, cloth);
  const BallState down = at_phase_end(Phase::airborne, held, ball, cloth, fall_s);
  const double up_mps = landed(down, ball, cloth).velocity.z;
  return up_mps * up_mps / (2 * gravity_mps2);
}

/// Largest change of the roll to come over a family of slides and bounces, m/s.
double change_of_roll_to_come_mps() {
  double largest = 0;
  for (const double spin : {-90.0, -20.0, 0.0, 35.0, 120.0}) {
    for (const double v : {0.05, 1.0, 5.0}) {
      const Cloth cloth = cloth_of(0.2);
      const BallState start{.velocity = {v, -0.4, -v}, .spin = {spin, 50 - spin, 7}};
      const BallState bounced = landed(start, ball, cloth);
      const BallState slid =
          advance(Phase::sliding, bounced, ball, cloth, 0.6 * slide_s(bounced, cloth));
      const Vec2 before = rolling_velocity_to_come(start, ball);
      largest = std::max({largest, norm(rolling_velocity_to_come(bounced, ball) - before),
                          norm(rolling_velocity_to_come(slid, ball) - before)});
    }
  }
  return largest;
}

BallState rolling_at(double v_mps) { return launched(v_mps, 1); }

/// mu_r from a ball that just runs the length L: 2 L / (g T^2).
double rolling_from_timed_run() {
  const Cloth cloth{.rolling = 0.010};
  const double L = 1.778;
  const double v = zero_of(
      [&](double speed) { return rolling_distance_m(rolling_at(speed), cloth) - L; }, 0.01, 5);
  const double T = phase_duration_s(Phase::rolling, rolling_at(v), ball, cloth);
  return 2 * L / (gravity_mps2 * T * T);
}

/// Deceleration from the moments at which a rolling ball passes two gates.
double deceleration_from_gates_mps2() {
  const Cloth cloth{.rolling = 0.010};
  const double t1 = 0.51290;
  const double t2 = 1.63038;
  const auto x = [&](double t) {
    return advance(Phase::rolling, rolling_at(1), ball, cloth, t).position.x;
  };
  return 2 * (x(t1) / t1 - x(t2) / t2) / (t2 - t1);
}

}  // namespace

Answers motion_answers() {
  const auto centre = [](double v) { return launched(v, 0); };
  return {
      {"B01", [=] { return slide_s(centre(2), cloth_of(0.2)); }},
      {"B02", [=] { return slide_end(centre(2), cloth_of(0.2)).position.x; }},
      {"B03", [=] { return slide_end(centre(2), cloth_of(0.2)).velocity.x; }},
      {"B04", [=] { return slide_end(centre(3), cloth_of(0.2)).position.x; }},
      {"B05", [] { return slide_end(launched(2, -1.25), cloth_of(0.2)).velocity.x; }},
      {"B08", [] { return slide_end(launched(2, 1.25), cloth_of(0.2)).velocity.x; }},
      {"B09", [] { return slide_end(launched(2, -1.25), cloth_of(0.2)).position.x; }},
      {"B10", [] { return distance_to_stun_m(-0.1); }},
      {"B11", [] { return distance_to_stun_m(-0.3); }},
      {"B12", [] { return distance_to_stun_m(-0.5); }},
      {"B15", [] { return roll_ratio_after_m(-0.3, 0.25); }},
      {"B16",
       [] { return angle_rad(plan(slide_end(skewed(), cloth_of(0.2)).velocity)) / degrees; }},
      {"B17", [] { return slide_s(skewed(), cloth_of(0.2)); }},
      {"B18", [] { return slide_end(skewed(), cloth_of(0.2)).position.y; }},
      {"B19", [] { return rolling_distance_m(rolling_at(1), {.rolling = 0.010}); }},
      {"B21",
       [=] {
         const BallState rolling = slide_end(centre(2), cloth_of(0.2));
         return rolling.position.x + rolling_distance_m(rolling, {.rolling = 0.010});
       }},
      {"B22",
       [] {
         const BallState spinning{.position = {0, 0, ball.radius_m}, .spin = {0, 0, 50}};
         return phase_duration_s(Phase::spinning, spinning, ball, {.spin_decay_radps2 = 10});
       }},
      {"B23", [] { return bounced_speed_mps(2); }},
      {"B24", [] { return bounced_speed_mps(0.3); }},
      {"B25", [] { return rebound_height_m(0.100); }},
      {"B26", change_of_roll_to_come_mps},
      {"G01", rolling_from_timed_run},
      {"G02",
       [] {
         const double v = std::sqrt(10 * gravity_mps2 * 0.05 / 7);
         return rolling_distance_m(rolling_at(v), {.rolling = 0.010});
       }},
      {"G03", deceleration_from_gates_mps2},
  };
}

}  // namespace ahead::test
