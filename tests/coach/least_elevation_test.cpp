#include "coach/access/least_elevation.h"

#include <array>
#include <numbers>
#include <vector>

#include <gtest/gtest.h>

#include "engine/equipment/presets.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

constexpr double degrees = std::numbers::pi / 180;

double elevation_deg(Vec2 cue, const std::vector<Vec2>& others, double height) {
  const engine::Table table = *engine::table_preset("english-7ft");
  return least_elevation_rad(table, cue, others,
                             {.aim_rad = 90 * degrees, .height = height, .cue_speed_mps = 1}) /
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
  for (const Row& row : {Row{25, 0, 16, 2}, Row{50, 0, 12, 2}, Row{100, 0, 8, 2}, Row{150, 0, 7, 2},
                         Row{25, 0.3, 10, 5}, Row{25, -0.3, 24, 6}, Row{100, -0.3, 11, 4}}) {
    const Vec2 cue{0.457, 0.0238 + row.gap_mm / 1000};
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

}  // namespace
}  // namespace ahead::coach
