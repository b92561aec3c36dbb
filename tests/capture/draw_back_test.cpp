#include "capture/draw/draw_back.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <numbers>
#include <vector>

#include <gtest/gtest.h>

#include "capture/capture.h"
#include "capture/draw/cut_as_seen.h"
#include "tests/photographs/judge.h"
#include "tests/photographs/scene.h"

namespace ahead::capture {
namespace {

using photographs::Scene;

const std::filesystem::path folder =
    std::filesystem::path(AHEAD_SOURCE_DIR) / "tests/photographs/scenes";

/// How far the drawn line strays from where the scene's own lens shows it, px, at the worst.
double worst_stray(const Camera& camera, const Scene& scene, Vec2 from, Vec2 to) {
  const std::array<Vec2, 2> ends{from, to};
  const BedMark line{line_pieces(ends, 0.004), {255, 255, 255}, 1};
  const Overlay overlay = overlay_of(camera, std::span(&line, 1), {});
  double worst = 0;
  for (int i = 0; i <= 100; ++i) {
    const Vec2 truth = photographs::seen_at(scene, engine::lift(from + (i / 100.0) * (to - from)));
    if (truth.x < 3 || truth.y < 3 || truth.x > camera.width_px - 4 ||
        truth.y > camera.height_px - 4) {
      continue;
    }
    double nearest = 50;
    for (int y = -6; y <= 6; ++y) {
      for (int x = -6; x <= 6; ++x) {
        const auto column = static_cast<std::size_t>(std::lround(truth.x) + x);
        const auto row = static_cast<std::size_t>(std::lround(truth.y) + y);
        const auto width = static_cast<std::size_t>(camera.width_px);
        if (column >= width || row >= static_cast<std::size_t>(camera.height_px)) continue;
        if (overlay.cover[row * width + column] < 100) continue;
        nearest = std::min(
            nearest,
            norm(Vec2{1.0 * static_cast<double>(column), 1.0 * static_cast<double>(row)} - truth));
      }
    }
    worst = std::max(worst, nearest);
  }
  return worst;
}

TEST(ALineDrawnBack, LiesWithinTwoPixelsOfTheTruthAcrossThePicture) {
  const auto truths = photographs::read_truth(folder);
  for (const std::size_t number : {1U, 3U, 8U}) {
    const photographs::Truth& truth = truths[number - 1];
    const Scene scene = photographs::drawn_scene(1, static_cast<int>(number), 1280, 960);
    std::vector<SeenPoint> points;
    const auto corners = nose_corners(scene.table);
    for (std::size_t i = 0; i < 4; ++i) {
      points.push_back({corners[i], truth.given[i], marked_sigma_px});
    }
    const auto captured =
        capture_photograph(photographs::read_photograph(folder / truth.file), scene.table, points);
    ASSERT_TRUE(captured.has_value());
    const double w = scene.table.width_m;
    const double l = scene.table.length_m;
    EXPECT_LT(worst_stray(captured->camera, scene, {0.05, 0.05}, {w - 0.05, l - 0.05}), 2);
    EXPECT_LT(worst_stray(captured->camera, scene, {w - 0.05, 0.05}, {0.05, l - 0.05}), 2);
    EXPECT_LT(worst_stray(captured->camera, scene, {0.05, l / 2}, {w - 0.05, l / 2}), 2);
  }
}

Camera from_the_baulk_end() {
  const Vec3 from{0.4572, -1.2, 1.1};
  const Vec3 forward = unit(Vec3{0.4572, 0.9, 0} - from);
  const Vec3 right = unit(cross(forward, Vec3{0, 0, 1}));
  return {.width_px = 800,
          .height_px = 600,
          .focal_px = 800,
          .axes = {right, cross(forward, right), forward},
          .at = from};
}

TEST(ALineDrawnBack, PassesBehindANearerBall) {
  const Camera camera = from_the_baulk_end();
  const std::array<Vec2, 2> ends{Vec2{0.2, 0.9}, Vec2{0.7, 0.9}};
  const BedMark line{line_pieces(ends, 0.006), {255, 255, 255}, 1};
  const Standing before{.at = {0.4572, 0.87}, .radius_m = 0.0254};
  const auto cover_at = [&](const Overlay& overlay, Vec2 place) {
    const Vec2 pixel = *pixel_of(camera, engine::lift(place));
    return overlay.cover[static_cast<std::size_t>(std::lround(pixel.y)) * 800 +
                         static_cast<std::size_t>(std::lround(pixel.x))];
  };
  const Overlay open = overlay_of(camera, std::span(&line, 1), {});
  const Overlay hidden = overlay_of(camera, std::span(&line, 1), std::span(&before, 1));
  EXPECT_GT(cover_at(open, {0.4572, 0.9}), 200);
  EXPECT_EQ(cover_at(hidden, {0.4572, 0.9}), 0);
  EXPECT_GT(cover_at(hidden, {0.3, 0.9}), 200);
}

// Looking along the table from the end squeezes its length, so a cut across it looks thicker than
// it is from behind the cue ball, when the object ball leaves at less than 45 degrees: by the
// foreshortening, tan(seen) = tan(true) / sin(elevation) for a line of aim that runs away from the
// camera.
TEST(ACut, LooksAsPerspectiveSays) {
  // Far off with a long lens, perspective is a plain squeeze.
  const Vec3 from{0.4572, -60, 60};
  const Vec3 forward = unit(Vec3{0.4572, 0.9, 0} - from);
  const Vec3 right = unit(cross(forward, Vec3{0, 0, 1}));
  const Camera camera{.width_px = 1000,
                      .height_px = 1000,
                      .focal_px = 40'000,
                      .axes = {right, cross(forward, right), forward},
                      .at = from};
  const double cut_rad = 30 * std::numbers::pi / 180;
  const Vec2 contact{0.4572, 0.9};
  const Vec2 target = contact + engine::direction(std::numbers::pi / 2 - cut_rad);
  const auto cut = cut_as_seen(camera, {0.4572, 0.4}, contact, target, 0.0254);
  ASSERT_TRUE(cut.has_value());
  EXPECT_NEAR(cut->true_rad, cut_rad, 1e-9);
  const double elevation_rad = std::asin(-forward.z);
  EXPECT_NEAR(cut->seen_rad, std::atan(std::tan(cut_rad) / std::sin(elevation_rad)), 2e-3);
}

TEST(ThePlanView, ShowsEachPlaceWhereItIs) {
  const Camera camera = from_the_baulk_end();
  const engine::Table table{.width_m = 0.9144, .length_m = 1.8288};
  Picture photograph = blank_picture(800, 600);
  const Vec2 place{0.6, 1.2};
  const Vec2 pixel = *pixel_of(camera, engine::lift(place));
  for (int y = -2; y <= 2; ++y) {
    for (int x = -2; x <= 2; ++x) {
      const auto at = (static_cast<std::size_t>(std::lround(pixel.y) + y) * 800 +
                       static_cast<std::size_t>(std::lround(pixel.x) + x)) *
                      3;
      photograph.bgr[at] = 255;
    }
  }
  const Picture view = plan_view(photograph, camera, table, 200, 0.05);
  const auto column = static_cast<std::size_t>((place.x + 0.05) * 200);
  const auto row = static_cast<std::size_t>((table.length_m + 0.05 - place.y) * 200);
  EXPECT_GT(view.bgr[row * view.stride() + 3 * column], 200);
  EXPECT_EQ(view.bgr[row * view.stride() + 3 * (column + 20)], 0);
}

}  // namespace
}  // namespace ahead::capture
