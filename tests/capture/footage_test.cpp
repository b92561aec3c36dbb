#include <algorithm>
#include <cmath>
#include <filesystem>
#include <vector>

#include <gtest/gtest.h>

#include "capture/footage/capture_footage.h"
#include "capture/footage/frames.h"
#include "engine/simulate/stretch.h"
#include "tests/photographs/clip.h"

// A shot that the engine played and POV-Ray filmed (tests/photographs/make_clip.cpp).
namespace ahead::capture {
namespace {

const std::filesystem::path file =
    std::filesystem::path(AHEAD_SOURCE_DIR) / "tests/photographs/shot.mp4";

/// How far each ball of a still layout is from where it lies.
std::vector<double> errors_mm(const Captured& captured, const photographs::Scene& scene) {
  std::vector<double> errors;
  for (const photographs::SceneBall& ball : scene.balls) {
    double nearest = 1e3;
    for (const CapturedBall& found : captured.balls) {
      if (found.ball.colour != coach::colour_of_id(ball.id)) continue;
      nearest = std::min(nearest, 1e3 * norm(found.ball.at - ball.at));
    }
    errors.push_back(nearest);
  }
  return errors;
}

TEST(AFilmedShot, GivesLayoutsTimesAndTheCueBallsPath) {
  const photographs::Clip clip = photographs::filmed_shot();
  std::vector<SeenPoint> points;
  for (const Vec3 corner : nose_corners(clip.scene.table)) {
    points.push_back({corner, photographs::seen_at(clip.scene, corner), marked_sigma_px});
  }
  const auto footage = capture_footage(file, clip.scene.table, points, [](double) { return true; });
  ASSERT_TRUE(footage.has_value()) << footage.error().wrong;
  ASSERT_EQ(footage->stills.size(), 2U);
  ASSERT_EQ(footage->shots.size(), 1U);

  for (const auto& [still, t_s] :
       {std::pair{&footage->stills[0], 0.0}, std::pair{&footage->stills[1], clip.length_s}}) {
    const photographs::Scene scene = photographs::scene_at(clip, t_s);
    EXPECT_EQ(still->captured.balls.size(), scene.balls.size());
    std::vector<double> errors = errors_mm(still->captured, scene);
    std::ranges::sort(errors);
    EXPECT_LT(errors[errors.size() / 2], 3);
    EXPECT_LT(errors.back(), 8);
  }

  const SeenShot& shot = footage->shots[0];
  EXPECT_NEAR(shot.from_s, clip.before_s, 0.1);
  EXPECT_NEAR(shot.to_s, clip.before_s + clip.shot.still_s, 0.1);

  ASSERT_EQ(shot.tracks.size(), 3U);  // the cue ball, the red and the black
  ASSERT_EQ(shot.tracks[0].colour, coach::Colour::cue);
  EXPECT_GT(shot.tracks[0].points.size(), 60U);
  for (const TrackPoint& point : shot.tracks[0].points) {
    const photographs::Scene scene = photographs::scene_at(clip, point.t_s);
    EXPECT_LT(1e3 * norm(point.at - scene.balls[0].at), 10) << point.t_s;
  }
}

TEST(Frames, OfNoClipSayWhy) {
  auto frames = Frames::open(AHEAD_SOURCE_DIR "/README.md");
  ASSERT_TRUE(frames.has_value());
  EXPECT_FALSE(frames->next().has_value());
  const auto failure = frames->failure();
  ASSERT_TRUE(failure.has_value());
  EXPECT_TRUE(failure->wrong.starts_with("is no footage that ffmpeg reads")) << failure->wrong;
}

}  // namespace
}  // namespace ahead::capture
