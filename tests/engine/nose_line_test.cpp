#include "engine/simulate/nose_line.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "engine/equipment/presets.h"
#include "tests/support/any.h"

namespace ahead::engine {
namespace {

constexpr double pi = std::numbers::pi;

TEST(ANoseLine, HasAPointWhereTwoPiecesMeetAtAnAngle) {
  const NoseLine bent = nose_line({RailSegment{{0, 0}, {1, 0}}, RailSegment{{1, 0}, {1, 1}}});
  // The bend and the two loose ends.
  EXPECT_EQ(bent.corners.size(), 3U);
}

TEST(ANoseLine, HasNoPointAtASmoothJoint) {
  const NoseLine smooth =
      nose_line({RailSegment{{0, 0}, {1, 0}}, RailArc{{1, -0.1}, 0.1, 0, pi / 2}});
  EXPECT_EQ(smooth.corners.size(), 2U);
  for (const Vec2 corner : smooth.corners) EXPECT_GT(norm(corner - Vec2{1, 0}), 0.05);
}

TEST(AnArc, CoversItsSweepAndNothingElse) {
  const NoseLine nose = nose_line({RailArc{{0, 0}, 1, 3 * pi / 4, -3 * pi / 4}});
  ASSERT_EQ(nose.arcs.size(), 1U);
  EXPECT_FALSE(nose.arcs[0].beyond_half);
  EXPECT_TRUE(nose.arcs[0].covers({-1, 0}));
  EXPECT_TRUE(nose.arcs[0].covers({-1, 0.9}));
  EXPECT_FALSE(nose.arcs[0].covers({1, 0}));
  EXPECT_FALSE(nose.arcs[0].covers({0, 1}));
  EXPECT_NEAR(nose.arcs[0].box.low.x, -1, 1e-12);
  EXPECT_NEAR(nose.arcs[0].box.high.x, -std::sqrt(0.5), 1e-12);
}

TEST(AnArc, OfMoreThanHalfATurnCoversAllButTheRest) {
  const NoseLine nose = nose_line({RailArc{{0, 0}, 1, -3 * pi / 4, 3 * pi / 4}});
  EXPECT_TRUE(nose.arcs[0].beyond_half);
  EXPECT_TRUE(nose.arcs[0].covers({1, 0}));
  EXPECT_TRUE(nose.arcs[0].covers({-0.5, 1}));
  EXPECT_FALSE(nose.arcs[0].covers({-1, 0}));
  EXPECT_FALSE(nose.arcs[0].covers({-1, 0.9}));
}

// Against a walk along every piece in small steps.
RC_GTEST_PROP(TheNearestPoint, IsNearestOfAllPointsOfTheNose, ()) {
  static const std::vector<Rail> rails = table_preset("english-7ft")->rails;
  static const NoseLine nose = nose_line(rails);
  static const std::vector<Vec2> walk = [] {
    std::vector<Vec2> points;
    for (int i = 0; i <= 4000; ++i) {
      const double share = i / 4000.0;
      for (const NoseSegment& s : nose.segments) {
        points.push_back(s.from + share * s.length_m * s.along);
      }
      for (const NoseArc& a : nose.arcs) {
        const double from_rad = angle_rad(a.from);
        const double sweep_rad = std::remainder(angle_rad(a.to) - from_rad, 2 * pi);
        points.push_back(a.centre + a.radius_m * direction(from_rad + share * sweep_rad));
      }
    }
    return points;
  }();
  const Vec2 p{test::any::between(-0.05, 0.95), test::any::between(-0.05, 1.88)};
  double least = 10;
  for (const Vec2 q : walk) least = std::min(least, norm(q - p));
  const double found = norm(nearest_on(nose, p) - p);
  RC_ASSERT(found <= least + 1e-12);
  RC_ASSERT(found > least - 3e-4);
}

}  // namespace
}  // namespace ahead::engine
