#include "coach/access/cue_line.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "engine/equipment/presets.h"
#include "tests/support/any.h"

namespace ahead::coach {
namespace {

using engine::Vec2;
using engine::Vec3;
namespace any = test::any;

constexpr double degrees = std::numbers::pi / 180;
constexpr double ball_m = 0.0254;

CueLine line_at(double side, double height) {
  return cue_line(*engine::table_preset("english-7ft"), {}, side, height);
}

/// A cue as thick everywhere as its tip: then trigonometry on paper is exact.
CueLine rod(double height) {
  const engine::Table table = *engine::table_preset("english-7ft");
  return cue_line(table, {.butt_width_m = table.cue.tip_width_m}, 0, height);
}

/// Least distance between the cue's skin and a sphere, by walking along the cue.
double gap_by_walking(const CueLine& line, double elevation, Vec3 at, double radius) {
  const Vec3 along{std::cos(elevation), 0, std::sin(elevation)};
  const Vec3 foot{-line.above_m * std::sin(elevation), line.right_m,
                  line.above_m * std::cos(elevation)};
  double least = 1e9;
  constexpr double step = 2e-5;
  for (int i = 0; i * step < line.end_m(); ++i) {
    const double s = i * step;
    least = std::min(least, norm(foot + s * along - at) - line.radius_at(s) - radius);
  }
  return least;
}

// The balls' surfaces stand 30 mm apart in a straight line. From the side: the blocker's centre is
// D = 79.2 mm back and 1.6 mm up, and the line's perpendicular distance from it must be the radius
// of the blocker + that of the rod + 1.5 mm. So D sin(e) - 1.6 cos(e) + out = 31.4 mm.
TEST(TheCueOverABall, ThirtyMillimetresBehindIsTrigonometry) {
  const double back = 0.0238 + 0.030 + 0.0254;
  const double up = 0.0254 - 0.0238;
  for (const double height : {-0.3, 0.0, 0.3}) {
    const double out = height * (0.0238 + 0.009);
    const double apart = 0.0254 + 0.0045 + 0.0015;
    const double by_hand = std::atan2(up, back) + std::asin((apart - out) / std::hypot(back, up));

    EXPECT_NEAR(elevation_over_ball(rod(height), {back, 0, up}, ball_m), by_hand, 1e-9);
  }
}

// Straight over the nose: back sin(e) + out = rise cos(e) + radius + 1.5 mm, and its root by hand.
TEST(TheCueOverAnEdge, SquareOnIsTrigonometry) {
  const double back = 0.0238 + 0.050;
  const double rise = 0.03226 - 0.0238;
  for (const double height : {-0.3, 0.0, 0.3}) {
    const double out = height * (0.0238 + 0.009);
    const double by_hand =
        std::atan2(rise, back) + std::asin((0.0045 + 0.0015 - out) / std::hypot(back, rise));

    EXPECT_NEAR(elevation_over_edge(rod(height), {back, -1}, {back, 1}, rise), by_hand, 1e-6);
  }
}

// At the least elevation the skin of cone and ball are 1.5 mm apart, measured along the cue.
RC_GTEST_PROP(TheCueOverABall, LeavesTheClearanceAndNoMore, ()) {
  const CueLine line = line_at(any::between(-0.5, 0.5), any::between(-0.5, 0.5));
  const Vec3 at{any::between(0.075, 1.2), any::between(-0.04, 0.04), 0.0016};
  const double elevation = elevation_over_ball(line, at, ball_m);

  RC_PRE(elevation < 80 * degrees);
  const double gap = gap_by_walking(line, elevation, at, ball_m);
  if (elevation == 0) {
    RC_ASSERT(gap > cue_clear_m - 1e-6);
  } else {
    RC_ASSERT(std::abs(gap - cue_clear_m) < 2e-5);
  }
}

// The same of a level edge that the cue crosses at any angle: the edge walked as points.
RC_GTEST_PROP(TheCueOverAnEdge, LeavesTheClearanceAndNoMore, ()) {
  const CueLine line = line_at(any::between(-0.5, 0.5), any::between(-0.3, 0.5));
  const double turn = any::between(-65 * degrees, 65 * degrees);
  const Vec2 middle{any::between(0.06, 0.8), 0};
  const Vec2 along{std::sin(turn), std::cos(turn)};
  const double z = 0.0085;
  const double elevation = elevation_over_edge(line, middle - along, middle + along, z);

  RC_PRE(elevation > 0 && elevation < 60 * degrees);
  double gap = 1e9;
  const Vec3 axis{std::cos(elevation), 0, std::sin(elevation)};
  const Vec3 foot{-line.above_m * std::sin(elevation), line.right_m,
                  line.above_m * std::cos(elevation)};
  for (int i = -1500; i < 1500; ++i) {
    const Vec2 p = middle + 1e-4 * i * along;
    const Vec3 off = Vec3{p.x, p.y, z} - foot;
    const double on_line = dot(off, axis);
    gap = std::min(gap, norm(off - on_line * axis) - line.radius_at(on_line));
  }
  RC_ASSERT(std::abs(gap - cue_clear_m) < 1e-4);
}

TEST(TheCueOverABall, PassesALevelBallBesideItAndNothingAhead) {
  EXPECT_EQ(elevation_over_ball(line_at(0, 0), {0.2, 0.06, 0.0016}, ball_m), 0);
  EXPECT_EQ(elevation_over_ball(line_at(0, 0), {-0.2, 0, 0.0016}, ball_m), 0);
}

// A ball that touches the cue ball beside the cue stands in the way of the side towards it.
TEST(TheCueOverABall, IsSteepOverATouchingBallOnTheSideThatIsStruck) {
  const double touching = 0.0492;
  const Vec3 at{touching * std::cos(65 * degrees), touching * std::sin(65 * degrees), 0.0016};

  EXPECT_GT(elevation_over_ball(line_at(0.5, 0), at, ball_m), 40 * degrees);
  EXPECT_LT(elevation_over_ball(line_at(-0.5, 0), at, ball_m), 1 * degrees);
}

TEST(TheUndersideOfTheCue, IsTheInverseOfItsElevation) {
  const CueLine line = line_at(0, -0.3);
  for (const double elevation_deg : {0.0, 5.0, 20.0, 45.0}) {
    const double elevation = elevation_deg * degrees;
    EXPECT_NEAR(elevation_for_underside(line, 0.2, underside_m(line, 0.2, elevation)), elevation,
                1e-5);
  }
}

// A shaft that keeps the tip's width for 0.3 m is thinner there than an even taper.
TEST(AParallelShaft, PassesLowerOverABallNearTheTip) {
  const engine::Table table = *engine::table_preset("english-7ft");
  const CueLine even = cue_line(table, {}, 0, 0);
  const CueLine parallel = cue_line(table, {.parallel_m = 0.3}, 0, 0);
  const Vec3 at{0.2, 0, 0.0016};

  EXPECT_LT(elevation_over_ball(parallel, at, ball_m), elevation_over_ball(even, at, ball_m));
}

}  // namespace
}  // namespace ahead::coach
