#include <cmath>

#include <gtest/gtest.h>

#include "tests/craft/scene.h"

// Facts of the trade: common practice, no source, unless a line says otherwise.
namespace ahead::test {
namespace {

using engine::Shot;

const engine::Playfield& match() { return field_of("english-7ft-match"); }

double height_of_stun(double cue_speed_mps, double distance_m) {
  return stun_height({.field = match(), .distance_m = distance_m, .cue_speed_mps = cue_speed_mps});
}

TEST(Stun, AtASofterPaceNeedsALowerStrike) {
  const double soft = height_of_stun(1.3, 0.3);
  const double medium = height_of_stun(1.8, 0.3);
  const double hard = height_of_stun(3, 0.3);
  EXPECT_GT(soft, -0.5);
  EXPECT_LT(soft, medium - 0.05);
  EXPECT_LT(medium, hard - 0.05);
  EXPECT_LT(hard, 0);
}

TEST(Stun, FromFurtherAwayNeedsALowerOrAHarderStrike) {
  const double near_height = height_of_stun(2, 0.3);
  EXPECT_LT(height_of_stun(2, 0.5), near_height - 0.05);
  // The near shot's height serves from further away too, at a harder pace.
  const double far_speed = zero_of(
      [&](double cue_speed_mps) {
        return -arrival({.field = match(),
                         .distance_m = 0.5,
                         .height = near_height,
                         .cue_speed_mps = cue_speed_mps});
      },
      1.9, 5);
  EXPECT_GT(far_speed, 2.3);
  EXPECT_LT(far_speed, 4.9);
}

// b = -(1 - sqrt(1 - 2 mu g D / v^2)), v the ball's speed off the tip (docs/physics.md, B3).
TEST(Stun, NeedsTheHeightOfTheClosedForm) {
  const engine::Table& table = match().table();
  const double distance_m = 0.5 - 2 * table.object_ball.radius_m;
  const double height = height_of_stun(2, 0.5);
  const double v = 2 * (1 + table.cue.restitution) /
                   (1 + table.cue_ball.mass_kg / table.cue.mass_kg + 2.5 * height * height);
  const double lost = 2 * table.cloth.sliding * engine::gravity_mps2 * distance_m;
  EXPECT_NEAR(height, -(1 - std::sqrt(1 - lost / (v * v))), 1e-9);
}

/// How far the cue ball comes back from a full contact, m.
double comes_back_m(const char* id, double height) {
  const engine::Playfield& field = field_of(id);
  const Shot shot =
      played({.field = field, .distance_m = 0.25, .height = height, .cue_speed_mps = 1.4});
  const double meets_y = first_meeting(shot, field.table()).after.position.y;
  EXPECT_EQ(shot.endings[0].pocket, -1);
  return meets_y - shot.endings[0].position.y;
}

TEST(Screw, BringsTheLighterCueBallBackFurther) {
  const double light = comes_back_m("english-7ft", -0.45);
  const double equal = comes_back_m("english-7ft-match", -0.45);
  EXPECT_GT(equal, 0.05);
  EXPECT_GT(light, 1.2 * equal);
}

TEST(Screw, FromALowerStrikeComesBackFurther) {
  EXPECT_GT(comes_back_m("english-7ft-match", -0.48), comes_back_m("english-7ft-match", -0.38));
}

TEST(AStunnedCueBall, IsStoppedByAFullContactOnABallOfItsOwnWeight) {
  const engine::Playfield& field = field_of("english-7ft-match");
  Scene scene{.field = field, .cue_speed_mps = 2};
  scene.height = stun_height(scene);
  const Meeting meeting = first_meeting(played(scene), field.table());
  // It creeps on at (1 - e) / 2 = 3 % of its speed.
  EXPECT_NEAR(meeting.after.velocity.y / meeting.before.velocity.y, 0.03, 0.002);
}

TEST(AStunnedLightCueBall, ComesBackFromAFullContact) {
  const engine::Playfield& field = field_of("english-7ft");
  Scene scene{.field = field, .cue_speed_mps = 2};
  scene.height = stun_height(scene);
  const Meeting meeting = first_meeting(played(scene), field.table());
  EXPECT_LT(meeting.after.velocity.y / meeting.before.velocity.y, -0.05);
}

TEST(AFineCut, KeepsMostOfTheCueBallsSpeed) {
  for (const char* id : {"english-7ft", "english-7ft-match"}) {
    const engine::Playfield& field = field_of(id);
    const Meeting meeting = first_meeting(
        played({.field = field, .cut_rad = 68 * degrees, .height = 0.4, .cue_speed_mps = 1}),
        field.table());
    EXPECT_GT(norm(meeting.after.velocity), 0.9 * norm(meeting.before.velocity)) << id;
  }
}

TEST(AStrikeAtTwoFifthsOfTheRadius, RollsFromTheStart) {
  const engine::Playfield& field = field_of("english-7ft");
  const Shot shot = played({.field = field, .height = 0.4, .cue_speed_mps = 1});
  EXPECT_NEAR(roll_ratio(shot.stretches.front().start, field.table().cue_ball), 1, 1e-9);
}

TEST(ALowStrikeAtALongDistance, DragsAndArrivesSlower) {
  const engine::Playfield& field = field_of("english-7ft");
  const auto arrives_mps = [&](double height) {
    return first_meeting(
               played({.field = field, .distance_m = 0.9, .height = height, .cue_speed_mps = 1.2}),
               field.table())
        .before.velocity.y;
  };
  EXPECT_LT(arrives_mps(-0.4), 0.7 * arrives_mps(0.25));
}

}  // namespace
}  // namespace ahead::test
