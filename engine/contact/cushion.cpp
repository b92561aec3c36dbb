#include "engine/contact/cushion.h"

#include <algorithm>
#include <cmath>

#include "engine/contact/ball_ball.h"
#include "engine/contact/nose_impact.h"

namespace ahead::engine {
namespace {

BallState rebounded_in_the_air(const BallState& before, const Ball& ball, Vec3 c,
                               const Cushion& cushion) {
  const double closing = dot(before.velocity, c);
  const Vec3 slip = tangential(before.velocity + cross(ball.radius_m * before.spin, c), c);
  const double size = norm(slip);
  // Nothing but the nose acts: v.c falls evenly, and friction at most stops the slip.
  const double normal = (1 + cushion.restitution) * closing;
  const double friction = std::min(cushion.friction * normal, (2.0 / 7.0) * size);
  const Vec3 drag = size > 0 ? (-friction / size) * slip : Vec3{};
  BallState after = before;
  after.velocity += drag - normal * c;
  after.spin += (2.5 / ball.radius_m) * cross(c, drag);
  return after;
}

}  // namespace

double nose_reach_m(const Ball& ball, double nose_height_m) {
  return ball.radius_m * nose_tilt(ball, nose_height_m).cos;
}

BallState rebounded(const BallState& before, const Ball& ball, Vec3 to_nose, Support support,
                    const Cushion& cushion, const Cloth& cloth) {
  const double closing = dot(before.velocity, to_nose);
  Cushion answer = cushion;
  if (closing < dead_contact_mps) answer.restitution = 0;
  if (support == Support::air) return rebounded_in_the_air(before, ball, to_nose, answer);

  const Tilt tilt{.sin = to_nose.z, .cos = norm(plan(to_nose))};
  const Vec2 toward = plan(to_nose) / tilt.cos;
  const Slips slips = slips_at_nose(before, ball, toward, tilt);
  const Impulses unit =
      nose_impulses({slips.nose / closing, slips.bed / closing}, tilt, answer, cloth);
  return pushed(before, ball, toward, tilt,
                {closing * unit.normal, closing * unit.nose, closing * unit.bed});
}

}  // namespace ahead::engine
