#include <cmath>
#include <numbers>

#include "engine/contact/ball_ball.h"
#include "engine/motion/motion.h"
#include "engine/simulate/next_contact.h"
#include "tests/published/check_rows.h"
#include "tests/support/search.h"

// Rows D (two balls meet) and H (how aim error grows).
namespace ahead::test {
namespace {

using namespace engine;  // NOLINT(google-build-using-namespace): the rows speak of nothing else

constexpr double degrees = std::numbers::pi / 180;

/// Two balls and their contact. The published rows are planar: equal radii keep the centres level.
struct Pair {
  Ball cue{.radius_m = 0.028575, .mass_kg = 0.17};
  Ball object{.radius_m = 0.028575, .mass_kg = 0.17};
  BallContact contact;
};

BallContact frictionless(double e) { return {.restitution = e, .friction_a = 0, .friction_b = 0}; }
/// The default friction law is the Marlow fit of the rows.
BallContact marlow(double e) { return {.restitution = e}; }

Pair equal(double e) { return {.contact = frictionless(e)}; }
Pair english_planar(double e) {
  return {.cue = {.radius_m = 0.0254, .mass_kg = 0.094},
          .object = {.radius_m = 0.0254, .mass_kg = 0.116},
          .contact = frictionless(e)};
}
Pair english_sizes(double e) {
  return {.cue = {.radius_m = 0.0238125, .mass_kg = 0.094},
          .object = {.radius_m = 0.0254, .mass_kg = 0.116},
          .contact = frictionless(e)};
}

/// How the cue ball arrives: line of centres along x, moving at the cut angle to its left.
struct Arrival {
  double v_mps = 1;
  double cut_deg = 0;
  double k = 0;     ///< roll ratio
  double side = 0;  ///< R w_z / v, positive for side on the outside of the cut
};

struct After {
  BallState cue;
  BallState object;
};

After met(const Pair& pair, const Arrival& arrival) {
  const Vec2 way = direction(arrival.cut_deg * degrees);
  const double turn = arrival.v_mps / pair.cue.radius_m;
  const BallState cue{.position = {0, 0, pair.cue.radius_m},
                      .velocity = lift(arrival.v_mps * way),
                      .spin = lift(arrival.k * turn * left_of(way), -arrival.side * turn)};
  const double apart_m = 2 * std::sqrt(pair.cue.radius_m * pair.object.radius_m);
  const BallState object{.position = {apart_m, 0, pair.object.radius_m}};
  const auto [cue_after, object_after] = collided(cue, pair.cue, object, pair.object, pair.contact);
  return {cue_after, object_after};
}

double speed(const BallState& state) { return norm(plan(state.velocity)); }

double cut_of_fraction(double fraction) { return std::asin(1 - fraction) / degrees; }

double separation_deg(const Pair& pair, double cut_deg) {
  const After after = met(pair, {.cut_deg = cut_deg});
  return std::abs(angle_rad(plan(after.cue.velocity)) - angle_rad(plan(after.object.velocity))) /
         degrees;
}

/// Angle between the aim line and the cue ball's roll to come.
double final_turn_deg(const Pair& pair, double cut_deg, double k) {
  const After after = met(pair, {.cut_deg = cut_deg, .k = k});
  const double leaves = angle_rad(rolling_velocity_to_come(after.cue, pair.cue));
  return leaves / degrees - cut_deg;
}

double throw_deg(const Arrival& arrival) {
  const After after = met({.contact = marlow(1)}, arrival);
  return angle_rad(plan(after.object.velocity)) / degrees;
}

double rolling_speed(const BallState& state, const Ball& ball) {
  return norm(rolling_velocity_to_come(state, ball));
}

/// Slide and roll to rest.
double travel_m(const BallState& state, const Ball& ball) {
  const Cloth cloth;
  const double slide_s = phase_duration_s(Phase::sliding, state, ball, cloth);
  const BallState rolling = at_phase_end(Phase::sliding, state, ball, cloth, slide_s);
  const double roll_s = phase_duration_s(Phase::rolling, rolling, ball, cloth);
  const BallState rest = at_phase_end(Phase::rolling, rolling, ball, cloth, roll_s);
  return norm(rest.position - state.position);
}

double share_of_free_travel() {
  const Pair pair = equal(1);
  const BallState free{.position = {0, 0, pair.cue.radius_m}, .velocity = {1, 0, 0}};
  return travel_m(met(pair, {.cut_deg = 45}).object, pair.object) / travel_m(free, pair.cue);
}

/// Plan distance between the centres of two balls on the bed when they touch, found by letting one
/// roll into the other.
double plan_distance_at_contact_m() {
  const Pair pair = english_sizes(1);
  const Cloth cloth;
  const double start_m = 0.3;
  const BallState moving{.position = {0, 0, pair.cue.radius_m},
                         .velocity = {1, 0, 0},
                         .spin = {0, 1 / pair.cue.radius_m, 0}};
  const BallState resting{.position = {start_m, 0, pair.object.radius_m}};
  const Path mine = path_of(Phase::rolling, moving, pair.cue, cloth,
                            phase_duration_s(Phase::rolling, moving, pair.cue, cloth));
  const Path other = path_of(Phase::rest, resting, pair.object, cloth, never);
  const double t_s = next_meeting(mine, other, pair.cue.radius_m + pair.object.radius_m);
  return start_m - advance(Phase::rolling, moving, pair.cue, cloth, t_s).position.x;
}

double elevation_at_contact_deg() {
  const Pair pair = english_sizes(1);
  return std::atan2(pair.object.radius_m - pair.cue.radius_m, plan_distance_at_contact_m()) /
         degrees;
}

double object_hop_mm() {
  const double up = met(english_sizes(0.95), {.v_mps = 3}).object.velocity.z;
  return 1000 * up * up / (2 * gravity_mps2);
}

/// How fast the object ball's direction turns with the aim, both balls 50.8 mm, centres 1 m apart.
double gain(double cut_deg) {
  const Pair pair{.cue = {}, .object = {}, .contact = frictionless(1)};
  const Cloth cloth;
  const double R = pair.cue.radius_m;
  const auto object_direction = [&](double aim_rad) {
    const BallState moving{.position = {0, 0, R},
                           .velocity = lift(direction(aim_rad)),
                           .spin = lift(left_of(direction(aim_rad)) / R)};
    const BallState resting{.position = {1, 0, R}};
    const Path mine = path_of(Phase::rolling, moving, pair.cue, cloth,
                              phase_duration_s(Phase::rolling, moving, pair.cue, cloth));
    const Path other = path_of(Phase::rest, resting, pair.object, cloth, never);
    const double t_s = next_meeting(mine, other, 2 * R);
    const BallState at = advance(Phase::rolling, moving, pair.cue, cloth, t_s);
    return angle_rad(
        plan(collided(at, pair.cue, resting, pair.object, pair.contact).second.velocity));
  };
  const double aim_rad = std::asin(2 * R * std::sin(cut_deg * degrees));
  const double step_rad = 1e-5;
  return std::abs(object_direction(aim_rad + step_rad) - object_direction(aim_rad - step_rad)) /
         (2 * step_rad);
}

/// Cut at which the balls of a rolling shot roll equally far.
double cut_of_equal_rolls_deg() {
  const Pair pair = equal(1);
  const auto difference = [&](double cut_deg) {
    const After after = met(pair, {.cut_deg = cut_deg, .k = 1});
    return rolling_speed(after.cue, pair.cue) - rolling_speed(after.object, pair.object);
  };
  return zero_of(difference, 5, 80);
}

double full_hit_roll_ratio() {
  const Pair pair = equal(1);
  const After after = met(pair, {.k = 1});
  const double ratio =
      rolling_speed(after.object, pair.object) / rolling_speed(after.cue, pair.cue);
  return ratio * ratio;
}

double roll_ratio_for_dead_stop() {
  const Pair pair = english_planar(0.95);
  return zero_of(
      [&](double k) { return rolling_velocity_to_come(met(pair, {.k = k}).cue, pair.cue).x; }, -1,
      1);
}

double spin_passed_on() {
  const Pair pair{.contact = marlow(1)};
  const Arrival arrival{.v_mps = 1, .side = 0.25};
  const double before = -arrival.side * arrival.v_mps / pair.cue.radius_m;
  return -met(pair, arrival).object.spin.z / before;
}

}  // namespace

Answers ball_ball_answers() {
  const double quarter = cut_of_fraction(0.25);
  const double three_quarters = cut_of_fraction(0.75);
  const auto turn = [](const Pair& pair) {
    return [pair](double cut) { return final_turn_deg(pair, cut, 1); };
  };
  return {
      {"D01", [=] { return speed(met(equal(1), {.cut_deg = three_quarters}).object); }},
      {"D02", [=] { return speed(met(equal(1), {.cut_deg = three_quarters}).cue); }},
      {"D03", [] { return speed(met(equal(1), {.cut_deg = 30}).object); }},
      {"D04", [] { return speed(met(equal(1), {.cut_deg = 30}).cue); }},
      {"D07", [] { return speed(met(equal(1), {.cut_deg = 45}).cue); }},
      {"D08", share_of_free_travel},
      {"D09", [] { return separation_deg(equal(0.95), 30); }},
      {"D12", [=] { return final_turn_deg(equal(1), three_quarters, 1); }},
      {"D13", [] { return final_turn_deg(equal(1), 30, 1); }},
      {"D14", [=] { return final_turn_deg(equal(1), quarter, 1); }},
      {"D15", [=] { return turn(equal(1))(maximum_of(turn(equal(1)), 5, 80)); }},
      {"D16", [=] { return maximum_of(turn(equal(1)), 5, 80); }},
      {"D17", [] { return final_turn_deg(equal(0.95), 30, 1); }},
      {"D18", [] { return final_turn_deg(equal(1), 20, -1.25); }},
      {"D19", [] { return final_turn_deg(equal(1), 45, -1.25); }},
      {"D20", [] { return final_turn_deg(equal(1), 30, 1.25); }},
      {"D21", [] { return final_turn_deg(equal(1), 30, -0.625); }},
      {"D23", [] { return met(english_planar(0.95), {}).cue.velocity.x; }},
      {"D24", [] { return met(english_planar(0.95), {}).object.velocity.x; }},
      {"D25", [] { return separation_deg(english_planar(0.95), 30); }},
      {"D26", [] { return final_turn_deg(english_planar(0.95), 30, 1); }},
      {"D27",
       [=] {
         const auto english = turn(english_planar(0.95));
         return english(maximum_of(english, 5, 80));
       }},
      {"D28", elevation_at_contact_deg},
      {"D29", [] { return 1000 * plan_distance_at_contact_m(); }},
      {"D30", object_hop_mm},
      {"D31", [] { return throw_deg({.v_mps = 0.447, .cut_deg = 30}); }},
      {"D32", [] { return throw_deg({.v_mps = 1.341, .cut_deg = 30}); }},
      {"D33", [] { return throw_deg({.v_mps = 3.129, .cut_deg = 30}); }},
      {"D34", [] { return throw_deg({.v_mps = 0.447, .cut_deg = 45}); }},
      {"D39",
       [] {
         const auto thrown = [](double cut) { return throw_deg({.v_mps = 0.447, .cut_deg = cut}); };
         return thrown(maximum_of(thrown, 5, 80));
       }},
      {"D40", [] { return throw_deg({.v_mps = 1.341, .cut_deg = 30, .k = 1}); }},
      {"D41", [] { return throw_deg({.v_mps = 0.447, .side = -0.5}); }},
      {"D42", [] { return throw_deg({.cut_deg = 30, .side = 0.5}); }},
      {"D43", spin_passed_on},
      {"D44", cut_of_equal_rolls_deg},
      {"D45", full_hit_roll_ratio},
      {"D46", [] { return gain(0); }},
      {"D47", [] { return gain(30); }},
      {"D48",
       [] {
         const Pair pair{.contact = marlow(0.95)};
         return met(pair, {.v_mps = 2, .k = 1}).cue.velocity.z;
       }},
      {"D49", roll_ratio_for_dead_stop},
      {"D50", [] { return 180 - final_turn_deg(equal(1), 20, -0.625); }},
      {"H01", [] { return 1000 * gain(0) * 0.125 * degrees; }},
  };
}

}  // namespace ahead::test
