#include "lesson/figure/contour.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "coach/random.h"
#include "lesson/figure/landing.h"

namespace ahead::lesson {
namespace {

using engine::Vec2;

/// A cloud like that of a cue ball: long along its path, thin across it.
std::vector<Vec2> cloud(Vec2 middle, double along_m, double across_m, int count) {
  coach::Random random(7, 0);
  const Vec2 axis = engine::direction(0.6);
  std::vector<Vec2> places;
  for (int i = 0; i < count; ++i) {
    const double a = along_m * random.normal();
    const double b = across_m * random.normal();
    places.push_back(middle + a * axis + b * engine::left_of(axis));
  }
  return places;
}

double share_inside(const std::vector<Ring>& rings, const std::vector<Vec2>& places) {
  double count = 0;
  for (const Vec2 place : places) count += inside(rings, place) ? 1 : 0;
  return count / static_cast<double>(places.size());
}

engine::Table bed() {
  engine::Table table;
  table.width_m = 0.9144;
  table.length_m = 1.8288;
  return table;
}

// Landings that the contours have not seen: four sigma of a count of 2000, plus the estimate's own.
TEST(LandingContours, HoldAsManyOfLandingsToCome) {
  std::vector<Vec2> places = cloud({0.45, 0.9}, 0.12, 0.03, 3000);
  const std::vector<Vec2> to_come(places.begin() + 1000, places.end());
  places.resize(1000);
  const LandingContours contours = landing_contours(places, bed());
  EXPECT_NEAR(share_inside(contours.half, to_come), 0.5, 0.06);
  EXPECT_NEAR(share_inside(contours.nine_tenths, to_come), 0.9, 0.04);
}

TEST(LandingContours, AreTwoRingsWhereTheCueBallStopsInTwoPlaces) {
  std::vector<Vec2> places = cloud({0.2, 0.3}, 0.03, 0.03, 200);
  const std::vector<Vec2> others = cloud({0.7, 1.5}, 0.03, 0.03, 200);
  places.insert(places.end(), others.begin(), others.end());
  EXPECT_EQ(landing_contours(places, bed()).half.size(), 2U);
}

TEST(LandingContours, SayNothingOfAFewLandings) {
  const LandingContours contours = landing_contours(cloud({0.4, 0.9}, 0.1, 0.1, 12), bed());
  EXPECT_TRUE(contours.half.empty());
  EXPECT_TRUE(contours.nine_tenths.empty());
}

TEST(LandingContours, SurviveLandingsOnOneSpot) {
  const std::vector<Vec2> places(50, Vec2{0.3, 0.3});
  EXPECT_DOUBLE_EQ(share_inside(landing_contours(places, bed()).nine_tenths, places), 1);
}

TEST(AContour, RunsAlongPlacesOfItsLevel) {
  Lattice cone{.origin_m = {0, 0}, .spacing_m = 0.01, .columns = 101, .rows = 101};
  for (int r = 0; r < 101; ++r) {
    for (int c = 0; c < 101; ++c) cone.values.push_back(50 - std::hypot(c - 50, r - 50));
  }
  const std::vector<Ring> rings = contour(cone, 20);
  ASSERT_EQ(rings.size(), 1U);
  // A circle of 30 cells; linear interpolation leaves it by less than 1/8 of a cell squared over r.
  for (const Vec2 place : rings.front()) {
    EXPECT_NEAR(engine::norm(place - Vec2{0.5, 0.5}), 0.30, 1e-4);
  }
}

}  // namespace
}  // namespace ahead::lesson
