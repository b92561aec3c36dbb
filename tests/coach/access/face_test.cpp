#include "coach/access/face.h"

#include <gtest/gtest.h>

#include "coach/leaves/pot_analysis.h"
#include "coach/player/scatter.h"
#include "tests/coach/access/scene.h"

namespace ahead::coach {
namespace {

using engine::Vec2;
using test::degrees;
using test::reached;

Face face_at(const test::Reached& scene, double aim_deg) {
  return face_of(scene.scene, scene.position, aim_deg * degrees);
}

TEST(TheFace, IsAccessPlaceByPlace) {
  const test::Reached scene = reached({{457, 700}, {470, 610}});
  const Face face = face_at(scene, 90);

  ASSERT_EQ(face.places.size(), 113U);  // the points of a 13 x 13 grid within a circle of radius 6
  for (const FacePlace& place : face.places) {
    EXPECT_EQ(place.access, scene.at(90, place.height, place.side));
  }
  EXPECT_EQ(face.nearest(0.01, -0.01)->side, 0);
  EXPECT_EQ(face.nearest(0.9, 0.9), nullptr);
}

TEST(TheFace, LosesNothingInTheOpen) {
  EXPECT_FALSE(face_loss(face_at(reached({{300, 600}}), 90)));
}

// Common practice, no source: tight on the cushion no screw is possible.
TEST(TheFace, LosesTheLowStrikesOnTheCushion) {
  const auto loss = face_loss(face_at(reached({{300, 24}}), 90));

  ASSERT_TRUE(loss);
  EXPECT_GT(loss->share, 0.3);
  EXPECT_LT(loss->height, -0.1);
  EXPECT_NEAR(loss->side, 0, 0.02);
}

// A ball behind and to the right of the line takes away the right of the face.
TEST(TheFace, LosesTheSideOnWhichABallStands) {
  const auto loss = face_loss(face_at(reached({{457, 700}, {487, 660}}), 90));

  ASSERT_TRUE(loss);
  EXPECT_GT(loss->side, 0.05);
  EXPECT_EQ(
      loss->typical.raised_by_ball + (loss->typical.blocked ? loss->typical.blocked->ball : 0), 1);
}

TEST(TheFace, OfAMirroredTableAndHandIsTheMirroredOne) {
  const Face here = face_at(reached({{700, 600}, {690, 530}}), 80);
  const Face there = face_at(reached({{214.4, 600}, {224.4, 530}}, test::left_hander()), 100);

  for (const FacePlace& place : here.places) {
    const FacePlace* other = there.nearest(-place.side, place.height);
    ASSERT_NE(other, nullptr);
    EXPECT_EQ(place.access.blocked, other->access.blocked);
    EXPECT_NEAR(place.access.elevation_rad, other->access.elevation_rad, 1e-6);
  }
}

// A straight pot that a child in a small body cannot reach from any side is not offered, and says
// so; an adult gets strikes, each at the elevation and the cost that access asks for.
TEST(APot, IsOfferedOnlyWhereThePlayerReaches) {
  const std::vector<Vec2> straight{{457, 900}, {300, 1300}};
  Player child = test::club();
  child.reach_m = 0.25;
  child.height_m = 1.0;
  child.bridging.rest = child.bridging.spider = false;
  const test::Reached small = reached(straight, child);
  const test::Reached adult = reached(straight);
  constexpr int top_left = 4;

  const PotAnalysis none = analyse_pot(small.scene, small.position, 1, top_left, {}, 1);
  const PotAnalysis some = analyse_pot(adult.scene, adult.position, 1, top_left, {}, 1);

  EXPECT_EQ(none.no_pot, NoPot::no_access);
  EXPECT_EQ(face_loss(none.face)->typical.blocked, (Reason{.why = Blocked::too_far}));
  ASSERT_FALSE(some.no_pot);
  for (const AnalysedStrike& strike : some.strikes) {
    EXPECT_TRUE(recommended(strike.option.access));
    EXPECT_EQ(strike.option.strike.elevation_rad, strike.option.access.elevation_rad);
  }
}

// The way in which the cue is carried multiplies the sigmas of direction and tip, and no other.
TEST(TheWayTheCueIsCarried, WidensAimAndTipAlone) {
  const Player player = test::club();
  const Slip plain = sigmas(player, {});
  const Slip rest = sigmas(player, {.carried = 1.5});

  EXPECT_EQ(rest.direction_rad, 1.5 * plain.direction_rad);
  EXPECT_EQ(rest.tip_height_m, 1.5 * plain.tip_height_m);
  EXPECT_EQ(rest.tip_side_m, 1.5 * plain.tip_side_m);
  EXPECT_EQ(rest.pace, plain.pace);
  EXPECT_EQ(rest.elevation_rad, plain.elevation_rad);
}

}  // namespace
}  // namespace ahead::coach
