#include "capture/camera/camera.h"

#include <array>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "capture/camera/fit_camera.h"
#include "capture/capture.h"
#include "engine/equipment/presets.h"
#include "tests/support/any.h"

namespace ahead::capture {
namespace {

/// Stands somewhere at the baulk end and looks at the middle of the bed.
Camera looking_at(Vec3 aim, Vec3 from, double focal_px, double k1) {
  const Vec3 forward = unit(aim - from);
  const Vec3 right = unit(cross(forward, Vec3{0, 0, 1}));
  return {.width_px = 1280,
          .height_px = 960,
          .focal_px = focal_px,
          .k1 = k1,
          .axes = {right, cross(forward, right), forward},
          .at = from};
}

Camera any_camera() {
  const double x = test::any::between(-1, 2);
  const double y = test::any::between(-2.5, -0.8);
  const double z = test::any::between(0.8, 2.5);
  const double focal_px = test::any::between(700, 1800);
  const double k1 = test::any::between(-0.15, 0.1);
  return looking_at({0.45, 0.9, 0}, {x, y, z}, focal_px, k1);
}

Vec2 any_place() {
  const double x = test::any::between(0, 0.9144);
  const double y = test::any::between(0, 1.8288);
  return {x, y};
}

RC_GTEST_PROP(ACamera, LooksBackAlongTheRayByWhichItSees, ()) {
  const Camera camera = any_camera();
  const Vec2 place = any_place();
  const double height_m = test::any::between(0, 0.05);

  const auto pixel = pixel_of(camera, engine::lift(place, height_m));

  RC_ASSERT(pixel.has_value());
  const auto back = on_plane(camera, *pixel, height_m);
  RC_ASSERT(back.has_value());
  RC_ASSERT(norm(*back - place) < 1e-6);
}

// What an outline is, in one sentence: every ray through it just touches the ball.
RC_GTEST_PROP(TheOutlineOfABall, IsWhereRaysTouchIt, ()) {
  const Camera camera = any_camera();
  const Vec3 centre = engine::lift(any_place(), 0.0254);

  for (const Vec2 pixel : outline_of(camera, centre, 0.0254, 16)) {
    const Vec3 ray = ray_of(camera, pixel);
    const Vec3 to = centre - camera.at;
    RC_ASSERT(std::abs(norm(to - dot(to, ray) * ray) - 0.0254) < 1e-6);
  }
}

// Hartley and Zisserman, Multiple View Geometry (2nd edition), section 8.3: the image of a sphere's
// centre is not the centre of its image.
TEST(TheOutlineOfABall, IsNotAroundWhereItsCentreIsSeen) {
  const Camera camera = looking_at({0.45, 0.9, 0}, {0.45, -1, 0.8}, 1000, 0);
  const Vec3 centre{0.05, 0.1, 0.0254};
  Vec2 mean;
  for (const Vec2 pixel : outline_of(camera, centre, 0.0254, 64)) mean = mean + pixel / 64;
  EXPECT_GT(norm(mean - *pixel_of(camera, centre)), 0.05);
}

class APinhole : public ::testing::Test {
 protected:
  const engine::Table table = *engine::table_preset("english-7ft");
  const Camera camera = looking_at({0.45, 0.9, 0}, {0.7, -0.9, 1.4}, 1050, -0.08);

  std::vector<SeenPoint> corners() const {
    std::vector<SeenPoint> points;
    for (const Vec3 corner : nose_corners(table)) {
      points.push_back({corner, *pixel_of(camera, corner), 1});
    }
    return points;
  }
  std::vector<SeenEdge> noses() const {
    std::vector<SeenEdge> edges;
    const auto ends = nose_corners(table);
    for (std::size_t i = 0; i < 4; ++i) {
      const Vec3 way = ends[(i + 1) % 4] - ends[i];
      for (int k = 1; k < 40; ++k) {
        const Vec3 point = ends[i] + (k / 40.0) * way;
        edges.push_back(
            {.point = point, .direction = unit(way), .pixel = *pixel_of(camera, point)});
      }
    }
    return edges;
  }
};

TEST_F(APinhole, IsFoundFromItsCornersAndTheBowOfItsNoses) {
  const std::vector<SeenPoint> points = corners();
  const auto first = camera_from_points(points, 1280, 960);
  ASSERT_TRUE(first.has_value()) << first.error().wrong;
  // Four corners say nothing of the bow: that is the noses' part.
  const CameraFit fit = refined(*first, points, noses());
  EXPECT_NEAR(fit.camera.focal_px / camera.focal_px, 1, 2e-3);
  EXPECT_NEAR(fit.camera.k1, camera.k1, 2e-3);
  EXPECT_LT(norm(fit.camera.at - camera.at), 3e-3);
  EXPECT_LT(fit.residual_px, 0.05);
}

TEST_F(APinhole, RefusesMirroredCorners) {
  std::vector<SeenPoint> points = corners();
  std::swap(points[0].pixel, points[1].pixel);
  std::swap(points[2].pixel, points[3].pixel);
  const auto fit = camera_from_points(points, 1280, 960);
  ASSERT_FALSE(fit.has_value());
  EXPECT_EQ(fit.error().wrong, "the points are in mirrored order");
}

TEST_F(APinhole, RefusesCrossedCorners) {
  std::vector<SeenPoint> points = corners();
  std::swap(points[0].pixel, points[1].pixel);
  const auto fit = camera_from_points(points, 1280, 960);
  ASSERT_FALSE(fit.has_value());
  EXPECT_EQ(fit.error().wrong, "the points cannot be a table: some are crossed over");
}

TEST_F(APinhole, RefusesCornersInLine) {
  std::vector<SeenPoint> points = corners();
  points[2].pixel = (points[1].pixel + points[3].pixel) / 2;
  const auto fit = camera_from_points(points, 1280, 960);
  ASSERT_FALSE(fit.has_value());
  EXPECT_EQ(fit.error().wrong, "three of the points lie almost on a line in the picture");
}

TEST_F(APinhole, RefusesTooFewPoints) {
  std::vector<SeenPoint> points = corners();
  points.pop_back();
  EXPECT_FALSE(camera_from_points(points, 1280, 960).has_value());
}

// Points far apart on the table that are marked almost at one place.
TEST_F(APinhole, RefusesPointsThatNoCameraSeesSo) {
  std::vector<SeenPoint> points = corners();
  for (const double x : {0.1, 0.8}) {
    points.push_back({Vec3{x, 1.0, 0}, *pixel_of(camera, {x, 0.5, 0}), 1});
  }
  const auto fit = camera_from_points(points, 1280, 960);
  ASSERT_FALSE(fit.has_value());
  EXPECT_TRUE(fit.error().wrong.starts_with("no camera sees a table of this shape so"))
      << fit.error().wrong;
}

}  // namespace
}  // namespace ahead::capture
