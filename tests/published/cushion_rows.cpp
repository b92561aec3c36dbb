#include <cmath>
#include <numbers>

#include "engine/contact/cushion.h"
#include "tests/published/check_rows.h"

// Rows E: a ball on the bed meets a cushion that lies along x, on its left.
namespace ahead::test {
namespace {

using namespace engine;  // NOLINT(google-build-using-namespace): the rows speak of nothing else

constexpr double degrees = std::numbers::pi / 180;

struct Approach {
  double incidence_deg = 90;  ///< from the cushion's line
  double k = 1;               ///< roll ratio
  double side = 0;            ///< R w_z / V, positive running
};

constexpr double V = 1.5;  ///< m/s; the answer scales with it
constexpr Ball ball{.radius_m = 0.02625, .mass_kg = 0.1406};

/// The set-up of the 2010 paper: sin(theta) 0.4, e 0.98, mu_w 0.14, mu_s 0.212.
BallState after(const Approach& approach, const Cushion& cushion = {.restitution = 0.98},
                const Cloth& cloth = {.sliding = 0.212}) {
  const Vec2 way = direction(approach.incidence_deg * degrees);
  const double turn = V / ball.radius_m;
  const BallState before{.position = {0, 0, ball.radius_m},
                         .velocity = lift(V * way),
                         .spin = lift(approach.k * turn * left_of(way), approach.side * turn)};
  const double sin_theta = 0.4;
  const Vec3 to_nose{0, std::sqrt(1 - sin_theta * sin_theta), sin_theta};
  return rebounded(before, ball, to_nose, Support::bed, cushion, cloth);
}

double ratio(const Approach& approach) { return norm(after(approach).velocity) / V; }

double angle_deg(const Approach& approach) {
  return -angle_rad(plan(after(approach).velocity)) / degrees;
}

/// How far above the centre the nose touches, from the plan distance at contact.
double sin_theta_of(double radius_m) {
  const double reach = nose_reach_m({.radius_m = radius_m}, 0.635 * 0.0508) / radius_m;
  return std::sqrt(1 - reach * reach);
}

}  // namespace

Answers cushion_answers() {
  return {
      {"E01", [] { return ratio({.incidence_deg = 90, .k = 1}); }},
      {"E03", [] { return ratio({.incidence_deg = 90, .k = 0}); }},
      {"E05", [] { return ratio({.incidence_deg = 90, .k = -1}); }},
      {"E07", [] { return ratio({.incidence_deg = 60}); }},
      {"E08", [] { return angle_deg({.incidence_deg = 60}); }},
      {"E09", [] { return ratio({.incidence_deg = 45}); }},
      {"E10", [] { return angle_deg({.incidence_deg = 45}); }},
      {"E11", [] { return ratio({.incidence_deg = 45, .k = 0}); }},
      {"E12", [] { return angle_deg({.incidence_deg = 45, .k = 0}); }},
      {"E13", [] { return ratio({.incidence_deg = 30}); }},
      {"E14", [] { return angle_deg({.incidence_deg = 30}); }},
      {"E15", [] { return angle_deg({.incidence_deg = 45, .side = 1}); }},
      {"E16", [] { return angle_deg({.incidence_deg = 45, .side = -1}); }},
      {"E17", [] { return angle_deg({.incidence_deg = 90, .side = 0.5}); }},
      {"E18a",
       [] { return ratio({.incidence_deg = 45, .side = 1}) - ratio({.incidence_deg = 45}); }},
      {"E18b",
       [] { return ratio({.incidence_deg = 45, .side = -1}) - ratio({.incidence_deg = 45}); }},
      {"E19",
       [] {
         const BallState gone =
             after({.k = 0}, {.restitution = 0.98, .friction = 0}, {.sliding = 0});
         return norm(gone.velocity) / V;
       }},
      {"E21a", [] { return sin_theta_of(0.0254); }},
      {"E21b", [] { return sin_theta_of(0.0238125); }},
      {"E24", [] { return 1000 * nose_reach_m({.radius_m = 0.0254}, 1.27 * 0.0254); }},
  };
}

}  // namespace ahead::test
