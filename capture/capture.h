#pragma once

#include <array>
#include <expected>
#include <span>
#include <string>
#include <vector>

#include "capture/camera/camera.h"
#include "capture/camera/fit_camera.h"
#include "capture/picture/picture.h"
#include "capture/refusal.h"
#include "coach/layout.h"

/// From a photograph to a layout, with how sure it is.
namespace ahead::capture {

struct CapturedBall {
  coach::LayoutBall ball;  ///< its sigma_m is the root of the covariance's mean axis
  double confidence = 0;   ///< 0 to 1, that it is a ball, and this one
  Vec2 pixel;              ///< where its centre is seen
  double xx = 0;           ///< covariance of the place, m^2
  double xy = 0;
  double yy = 0;
  bool doubtful = false;  ///< to be confirmed by a person
};

struct Captured {
  coach::Layout layout;               ///< the cue ball first
  std::vector<CapturedBall> balls;    ///< in the layout's order
  std::vector<std::string> doubtful;  ///< ids, the most doubtful first
  Camera camera;
  std::vector<SeenPoint> points;  ///< the corners (or points) as they were found
  double residual_px = 0;         ///< of the noses' edges and the given points
  bool ends_known = true;         ///< false when the baulk end was guessed to be the nearer one
};

/// The four crossings of the nose lines, against the clock from the bottom left, at the nose's
/// height: what a person marks as the corners.
[[nodiscard]] std::array<Vec3, 4> nose_corners(const engine::Table& table);

/// How exactly a person marks a point, one sigma, px on a picture of 1280 pixels' width.
inline constexpr double marked_sigma_px = 2.0;

/// `points` are known table points that were marked in the picture: four corners, or more; none
/// when the table is to be found as well.
[[nodiscard]] std::expected<Captured, Refusal> capture_photograph(
    const Picture& picture, const engine::Table& table, std::span<const SeenPoint> points);

}  // namespace ahead::capture
