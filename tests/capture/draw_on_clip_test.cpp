#include "capture/draw/draw_on_clip.h"

#include <array>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "capture/footage/frames.h"
#include "tests/photographs/clip.h"
#include "tests/support/temporary_folder.h"

namespace ahead::capture {
namespace {

const std::filesystem::path shot =
    std::filesystem::path(AHEAD_SOURCE_DIR) / "tests/photographs/shot.mp4";

Footage footage_of(const std::vector<std::vector<coach::LayoutBall>>& layouts) {
  Footage footage;
  for (const auto& balls : layouts) {
    StillStretch still;
    for (const coach::LayoutBall& ball : balls) still.captured.balls.push_back({.ball = ball});
    footage.stills.push_back(still);
  }
  return footage;
}

TEST(AStillStretch, IsTheOneThatShowsTheBallsWhereTheShotBegins) {
  const coach::LayoutBall cue{.id = "cue", .colour = coach::Colour::cue, .at = {0.3, 0.4}};
  const coach::LayoutBall red{.id = "red-1", .colour = coach::Colour::red, .at = {0.6, 1.2}};
  coach::LayoutBall moved = red;
  moved.at = {0.2, 1.6};
  const Footage footage = footage_of({{cue, moved}, {cue, red}});
  coach::Layout layout{.balls = {cue, red}};
  layout.balls[1].at.x += 0.03;  // not quite where it was meant to stop
  EXPECT_EQ(stretch_showing(footage, layout), 1U);

  layout.balls = {cue, moved};
  layout.balls[0].at = {0.8, 1.5};
  const auto none = stretch_showing(footage, layout);
  ASSERT_FALSE(none.has_value());
  EXPECT_TRUE(none.error().wrong.starts_with("shows no still moment")) << none.error().wrong;
}

/// Mean absolute difference of two pictures over the pixels that `cover` draws on, or does not.
double difference(const Picture& a, const Picture& b, const Overlay& overlay, bool drawn) {
  double sum = 0;
  double count = 0;
  for (std::size_t i = 0; i < overlay.cover.size(); ++i) {
    // Away from the edges, where half of a pixel is drawn and the film's colours are coarser.
    if (drawn ? overlay.cover[i] < 255 : overlay.cover[i] > 0) continue;
    for (std::size_t c = 3 * i; c < 3 * i + 3; ++c) sum += std::abs(1.0 * a.bgr[c] - b.bgr[c]);
    count += 3;
  }
  return sum / count;
}

// The film's frames are the clip's, with what is drawn where it is drawn, and a ball before it.
TEST(ADrawnClip, ShowsTheDrawingOnEachFrameOfTheStretchAndNothingElse) {
  const test::TemporaryFolder folder;
  const photographs::Clip clip = photographs::filmed_shot();
  std::vector<SeenPoint> points;
  for (const Vec3 corner : nose_corners(clip.scene.table)) {
    points.push_back({corner, photographs::seen_at(clip.scene, corner), marked_sigma_px});
  }
  const auto camera = camera_from_points(points, clip.scene.width_px, clip.scene.height_px);
  ASSERT_TRUE(camera.has_value());
  const photographs::SceneBall& ball = clip.scene.balls[1];
  const std::array<Vec2, 2> ends{Vec2{0.1, ball.at.y}, Vec2{0.8, ball.at.y}};
  const BedMark line{line_pieces(ends, 0.03), {255, 0, 255}, 1};
  const Standing standing{.at = ball.at, .radius_m = ball.radius_m};
  const Overlay overlay = overlay_of(camera->camera, std::span(&line, 1), std::span(&standing, 1));

  const std::filesystem::path film = folder / "drawn.mp4";
  const auto refusal = draw_on_clip(shot, 0.2, 0.6, overlay, film);
  ASSERT_FALSE(refusal.has_value()) << refusal->wrong;

  auto clip_frames = Frames::open(shot);
  auto film_frames = Frames::open(film);
  ASSERT_TRUE(clip_frames.has_value() && film_frames.has_value());
  for (int i = 0; i < 5; ++i) ASSERT_TRUE(clip_frames->next().has_value());
  int frames = 0;
  for (; auto drawn = film_frames->next(); ++frames) {
    const auto bare = clip_frames->next();
    ASSERT_TRUE(bare.has_value());
    EXPECT_LT(difference(*drawn, *bare, overlay, false), 4) << frames;
    EXPECT_LT(difference(*drawn, laid_over(*bare, overlay), overlay, true), 12) << frames;
    EXPECT_GT(difference(*drawn, *bare, overlay, true), 60) << frames;
  }
  EXPECT_EQ(frames, 11);  // from 0.20 s to 0.60 s, both included, 25 a second

  // The line would run through the ball, which hides it.
  const auto middle = pixel_of(camera->camera, engine::lift(ball.at, ball.radius_m));
  ASSERT_TRUE(middle.has_value());
  const auto at = static_cast<std::size_t>(std::lround(middle->y)) *
                      static_cast<std::size_t>(clip.scene.width_px) +
                  static_cast<std::size_t>(std::lround(middle->x));
  EXPECT_EQ(overlay.cover[at], 0);
}

TEST(ADrawnClip, ThatCannotBeWrittenSaysSo) {
  Overlay overlay{.colour = blank_picture(800, 600)};
  overlay.cover.assign(std::size_t{800} * 600, 0);
  const auto refusal = draw_on_clip(shot, 0.2, 0.6, overlay, "/nowhere/at/all/drawn.mp4");
  ASSERT_TRUE(refusal.has_value());
  EXPECT_TRUE(refusal->wrong.starts_with("cannot be drawn on (")) << refusal->wrong;
}

}  // namespace
}  // namespace ahead::capture
