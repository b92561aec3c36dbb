#include <cmath>
#include <numbers>

#include "engine/contact/strike.h"
#include "engine/motion/motion.h"
#include "tests/published/check_rows.h"
#include "tests/support/search.h"

// Rows C: the cue meets the cue ball.
namespace ahead::test {
namespace {

using namespace engine;  // NOLINT(google-build-using-namespace): the rows speak of nothing else

constexpr double degrees = std::numbers::pi / 180;

constexpr Ball ball_of_mass(double mass_kg) { return {.radius_m = 0.0254, .mass_kg = mass_kg}; }

/// A cue without deflection: its end weighs nothing.
Cue straight_cue() { return {.restitution = 0.73, .mass_kg = 0.54, .end_mass_kg = 1e-12}; }

BallState after(const Strike& strike, const Ball& ball) {
  const BallState before{.position = {0, 0, ball.radius_m}};
  return struck(before, strike, ball, straight_cue(), {});
}

double speed_ratio(double mass_kg, double height) {
  const Strike strike{.height = height, .cue_speed_mps = 1};
  return after(strike, ball_of_mass(mass_kg)).velocity.x;
}

/// Height above the cloth, in radii, at which the ball rolls from the start.
double rolling_strike_height() {
  const Ball ball = ball_of_mass(0.116);
  const auto slip_at = [&](double b) {
    return slip(after({.height = b, .cue_speed_mps = 2}, ball), ball).x;
  };
  return 1 + zero_of(slip_at, 0, 0.5);
}

/// Angle between the cue's line and the roll to come, deg, positive to the right.
double final_direction_deg(const Strike& strike) {
  const Ball ball = ball_of_mass(0.116);
  return -angle_rad(rolling_velocity_to_come(after(strike, ball), ball)) / degrees;
}

double hop_height_m() {
  const Ball ball = ball_of_mass(0.116);
  const Cue cue = straight_cue();
  const double per_cue_speed = (1 + cue.restitution) / (1 + ball.mass_kg / cue.mass_kg);
  const Strike strike{.elevation_rad = 30 * degrees, .cue_speed_mps = 4 / per_cue_speed};
  const double up_mps = after(strike, ball).velocity.z;
  return up_mps * up_mps / (2 * gravity_mps2);
}

double squirt_deg(double mass_kg, double end_mass_kg) {
  const Cue cue{.end_mass_kg = end_mass_kg};
  const Ball ball = ball_of_mass(mass_kg);
  const Strike right{.side = 0.5, .cue_speed_mps = 1};
  const BallState gone = struck({.position = {0, 0, ball.radius_m}}, right, ball, cue, {});
  return angle_rad(plan(gone.velocity)) / degrees;
}

}  // namespace

Answers strike_answers() {
  return {
      {"C01", [] { return speed_ratio(0.094, 0); }},
      {"C02", [] { return speed_ratio(0.094, 0.25); }},
      {"C03", [] { return speed_ratio(0.094, 0.5); }},
      {"C04", [] { return speed_ratio(0.17, 0); }},
      {"C06",
       [] {
         const Ball ball = ball_of_mass(0.116);
         const BallState gone = after({.height = 0.25, .cue_speed_mps = 2}, ball);
         return ball.radius_m * gone.spin.y / gone.velocity.x;
       }},
      {"C07", rolling_strike_height},
      {"C09", [] { return squirt_deg(0.15, 0.15 / 20); }},
      {"C11",
       [] {
         return final_direction_deg(
             {.elevation_rad = 5 * degrees, .side = 0.5, .cue_speed_mps = 2});
       }},
      {"C13",
       [] {
         return final_direction_deg(
             {.elevation_rad = 60 * degrees, .side = 0.3, .height = -0.3, .cue_speed_mps = 2});
       }},
      {"C14", hop_height_m},
      {"C16", [] { return squirt_deg(0.17, 0.0075); }},
      {"C17", [] { return squirt_deg(0.094, 0.0075); }},
  };
}

}  // namespace ahead::test
