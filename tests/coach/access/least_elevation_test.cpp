#include "coach/access/least_elevation.h"

#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "tests/coach/access/scene.h"

namespace ahead::coach {
namespace {

using engine::Vec2;
using test::degrees;

double elevation_deg(Vec2 cue, const std::vector<Vec2>& others, double height, double side = 0,
                     double aim_deg = 90) {
  std::vector<Vec2> places_mm{1000 * cue};
  for (const Vec2 other : others) places_mm.push_back(1000 * other);
  const test::Reached scene = test::reached(places_mm);
  const engine::Table& table = scene.layout.table;
  return least_elevation(behind(table, scene.scene.edges, scene.position, aim_deg * degrees),
                         cue_line(table, scene.scene.player.cue, side, height),
                         table.object_ball.radius_m)
             .elevation_rad /
         degrees;
}

// Worked out independently from the same geometry (clearance 1 to 2 mm, nose 32 mm): cueing
// straight over a cushion by the gap from ball to nose. Those figures take the cue's centre line
// through the touch; with a domed tip it lies further out by 0.11 R at 0.3 R, 2 to 5 degrees near
// the cushion.
TEST(TheLeastElevation, OverACushionIsTheTabledOne) {
  struct Row {
    double gap_mm, height, degrees, within;
  };
  for (const Row& row :
       {Row{0, 0, 31, 3}, Row{25, 0, 16, 2}, Row{50, 0, 12, 2}, Row{100, 0, 8, 2},
        Row{150, 0, 7, 2}, Row{25, 0.3, 10, 5}, Row{25, -0.3, 24, 6}, Row{100, -0.3, 11, 4}}) {
    const Vec2 cue{0.3, 0.0238 + row.gap_mm / 1000};
    EXPECT_NEAR(elevation_deg(cue, {}, row.height), row.degrees, row.within)
        << row.gap_mm << " mm, height " << row.height;
  }
}

// The same for a 2 in ball straight behind, by the gap between the balls, far from the cushion.
TEST(TheLeastElevation, OverABallIsTheTabledOne) {
  struct Row {
    double gap_mm, height, degrees;
  };
  for (const Row& row : {Row{0, 0, 42}, Row{25, 0, 27}, Row{25, -0.3, 33}, Row{50, 0, 20},
                         Row{100, 0, 13}, Row{200, 0, 8}}) {
    const Vec2 cue{0.457, 1.6};
    const Vec2 behind = cue - Vec2{0, 0.0238 + 0.0254 + row.gap_mm / 1000};
    EXPECT_NEAR(elevation_deg(cue, {behind}, row.height), row.degrees, 4)
        << row.gap_mm << row.height;
  }
}

TEST(TheLeastElevation, IgnoresABallBesideTheCue) {
  const Vec2 cue{0.457, 1.4};
  const double free = elevation_deg(cue, {}, 0);

  EXPECT_EQ(elevation_deg(cue, {cue + Vec2{0.06, -0.2}}, 0), free);
  EXPECT_EQ(elevation_deg(cue, {cue + Vec2{0, 0.2}}, 0), free);  // ahead
}

// Common practice, no source: the lower the strike, the more the butt must come up.
TEST(TheLeastElevation, GrowsAsTheStrikeGoesLower) {
  const Vec2 cue{0.457, 0.08};

  EXPECT_LT(elevation_deg(cue, {}, 0.3), elevation_deg(cue, {}, 0));
  EXPECT_LT(elevation_deg(cue, {}, 0), elevation_deg(cue, {}, -0.3));
}

// Over a pocket there is no nose: the cue need only pass the far rail.
TEST(TheLeastElevation, IsLessOverAPocketThanOverTheCushion) {
  const double over_pocket = elevation_deg({0.06, 0.06}, {}, 0, 0, 45);
  const double over_cushion = elevation_deg({0.3, 0.06}, {}, 0, 0, 90);

  EXPECT_LT(over_pocket, over_cushion);
  EXPECT_GT(over_pocket, 2);
}

// Frozen to the left cushion and cueing along it, a strike on the cushion's side puts the shaft
// 5.9 mm from the nose, less than its 4.5 mm radius and 1.5 mm: the tip must come down from above
// it. By trigonometry with the nose 8.46 mm over the ball's middle, just behind the tip.
TEST(TheLeastElevation, AlongACushionIsSteepForTheSideTowardsIt) {
  const double touching = 0.02225;
  const double gap = touching - 0.5 * (0.0238 + 0.009);
  const double by_hand =
      std::atan2(0.00846, 0.0238) +
      std::asin(std::sqrt(0.006 * 0.006 - gap * gap) / std::hypot(0.00846, 0.0238));

  EXPECT_LT(elevation_deg({touching, 1.4}, {}, 0, 0.3), 5);
  EXPECT_NEAR(elevation_deg({touching, 1.4}, {}, 0, -0.5), by_hand / degrees, 0.2);
}

}  // namespace
}  // namespace ahead::coach
