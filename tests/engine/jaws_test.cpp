#include "engine/equipment/jaws.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "engine/simulate/nose_line.h"

// Expected lengths are worked out by hand in docs/equipment.md, "Jaws".
namespace ahead::engine {
namespace {

constexpr double degrees = std::numbers::pi / 180;
constexpr double width_m = 1.0;
constexpr double length_m = 2.0;

Outline rounded(double radius_m) {
  return rounded_outline(width_m, length_m,
                         {.corner_width_at_fall_m = 0.08128,
                          .middle_width_at_fall_m = 0.08128,
                          .corner_radius_m = radius_m,
                          .middle_radius_m = radius_m});
}

Outline straight() {
  return straight_outline(width_m, length_m,
                          {.corner_mouth_m = 0.1143,
                           .middle_mouth_m = 0.127,
                           .corner_shelf_m = 0.0381,
                           .middle_shelf_m = 0.009525,
                           .corner_closing_rad = 7 * degrees,
                           .middle_closing_rad = 14 * degrees});
}

/// The straight noses: pieces that lie on the edge of the playing area.
std::vector<RailSegment> noses(const Outline& outline) {
  std::vector<RailSegment> result;
  const auto on_edge = [](Vec2 p) {
    return std::abs(p.x) < 1e-9 || std::abs(p.x - width_m) < 1e-9 || std::abs(p.y) < 1e-9 ||
           std::abs(p.y - length_m) < 1e-9;
  };
  for (const Rail& rail : outline.rails) {
    const auto* segment = std::get_if<RailSegment>(&rail);
    if (segment == nullptr || !on_edge(segment->from) || !on_edge(segment->to)) continue;
    if (norm(segment->to - segment->from) > 0.2) result.push_back(*segment);
  }
  return result;
}

/// Distance from a corner of the playing area to the nearest end of a straight nose.
double nose_begins_m(const Outline& outline, Vec2 corner) {
  double nearest = 10;
  for (const RailSegment& nose : noses(outline)) {
    nearest = std::min({nearest, norm(nose.from - corner), norm(nose.to - corner)});
  }
  return nearest;
}

TEST(AnOutline, HasSixNosesAndSixPocketsInTheirOrder) {
  for (const Outline& outline : {rounded(0.04), straight()}) {
    EXPECT_EQ(noses(outline).size(), 6U);
    ASSERT_EQ(outline.pockets.size(), 6U);
    for (std::size_t i = 0; i < 6; ++i) {
      EXPECT_EQ(static_cast<std::size_t>(outline.pockets[i].name), i);
    }
  }
}

TEST(ASharpRoundedCorner, BeginsAtTheWidthOverRootTwo) {
  EXPECT_NEAR(nose_begins_m(rounded(1e-9), {0, 0}), 0.05747, 1e-5);
}

TEST(ARoundedJaw, TakesTheRadiusTimesTheTangentOfAnEighthOfATurnFromTheCorner) {
  EXPECT_NEAR(nose_begins_m(rounded(0.04), {0, 0}), 0.05747 + 0.04 * std::tan(22.5 * degrees),
              1e-5);
}

TEST(ARoundedJaw, TakesItsRadiusFromTheMiddle) {
  EXPECT_NEAR(nose_begins_m(rounded(0.025), {0, length_m / 2}), 0.04064 + 0.025, 1e-9);
}

TEST(ARoundedJaw, LeavesNoPointForTheBallToMeetButTheWallsInnerEnds) {
  const Outline outline = rounded(0.04);
  for (const Vec2 corner : nose_line(outline.rails).corners) {
    double nearest = 10;
    for (const Pocket& pocket : outline.pockets) {
      nearest = std::min(nearest, norm(corner - pocket.centre) - pocket.fall_radius_m);
    }
    EXPECT_LT(nearest, 1e-9) << "a point outside a fall, at " << corner.x << " " << corner.y;
  }
}

TEST(AStraightJaw, BeginsAtTheMouthOverRootTwo) {
  EXPECT_NEAR(nose_begins_m(straight(), {0, 0}), 0.08082, 1e-5);
  EXPECT_NEAR(nose_begins_m(straight(), {0, length_m / 2}), 0.0635, 1e-9);
}

TEST(AStraightJaw, ClosesToTheThroatAtTheDrop) {
  // Width at depth t behind the mouth: mouth - 2 t tan(closing); the fall circle is as wide.
  const Outline outline = straight();
  EXPECT_NEAR(2 * outline.pockets[0].fall_radius_m, 0.1049, 1e-4);
  EXPECT_NEAR(2 * outline.pockets[2].fall_radius_m, 0.1223, 1e-4);
}

TEST(AnOutline, IsItsOwnMirrorImage) {
  for (const Outline& outline : {rounded(0.04), straight()}) {
    const NoseLine nose = nose_line(outline.rails);
    for (int i = 0; i < 16; ++i) {
      for (int j = 0; j < 27; ++j) {
        const Vec2 p{0.03 + 0.061 * i, 0.02 + 0.073 * j};
        const double here = norm(nearest_on(nose, p) - p);
        const Vec2 across{width_m - p.x, p.y};
        const Vec2 along{p.x, length_m - p.y};
        EXPECT_NEAR(here, norm(nearest_on(nose, across) - across), 1e-12);
        EXPECT_NEAR(here, norm(nearest_on(nose, along) - along), 1e-12);
      }
    }
  }
}

}  // namespace
}  // namespace ahead::engine
