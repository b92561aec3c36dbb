#include "engine/contact/strike.h"

#include <cassert>
#include <cmath>

#include "engine/contact/landing.h"

namespace ahead::engine {

double offset(const Strike& strike) { return norm(Vec2{strike.side, strike.height}); }

bool miscues(const Strike& strike, const Cue& cue) {
  // A hair of room, so that a strike written at the limit and read back is still at the limit.
  return offset(strike) > cue.miscue_offset + 1e-9;
}

namespace {

/// Tangent of deflection_rad().
double deflection(double side, const Ball& ball, const Cue& cue) {
  const double in_line = 1.0 - side * side;
  return 2.5 * side * std::sqrt(in_line) / (1.0 + ball.mass_kg / cue.end_mass_kg + 2.5 * in_line);
}

}  // namespace

double deflection_rad(double side, const Ball& ball, const Cue& cue) {
  return std::atan(deflection(side, ball, cue));
}

BallState struck(const BallState& before, const Strike& strike, const Ball& ball, const Cue& cue,
                 const Cloth& cloth) {
  assert(!miscues(strike, cue));
  const double R = ball.radius_m;
  const double off = offset(strike);
  const double speed = strike.cue_speed_mps * (1.0 + cue.restitution) /
                       (1.0 + ball.mass_kg / cue.mass_kg + 2.5 * off * off);

  const double level = std::cos(strike.elevation_rad);
  const Vec2 aim = direction(strike.aim_rad);
  const Vec3 along = lift(level * aim, -std::sin(strike.elevation_rad));
  const Vec3 right = lift(-left_of(aim));
  const Vec3 up = cross(right, along);
  const Vec3 touch =
      R * (strike.side * right + strike.height * up - std::sqrt(1.0 - off * off) * along);

  const double sideways = deflection(strike.side, ball, cue);
  BallState after = before;
  after.velocity = (speed / std::sqrt(1 + sideways * sideways)) * (along - sideways * right);
  after.spin = (2.5 / (R * R)) * cross(touch, speed * along);
  return settled_on_bed(after, ball, cloth);
}

}  // namespace ahead::engine
