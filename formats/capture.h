#pragma once

#include <array>
#include <string>
#include <vector>

#include "coach/layout.h"

/// What a photograph gave, `three-ahead.capture/1`: `ahead schema capture` explains its keys.
namespace ahead::formats {

struct CapturedBallRecord {
  std::string id;
  engine::Vec2 at;  ///< m
  double sigma_m = 0;
  std::array<double, 3> covariance_m2{};  ///< xx, xy, yy
  double confidence = 0;
  engine::Vec2 pixel;  ///< where the ball's centre is seen
};

/// A pinhole with one coefficient of distortion: capture/camera/camera.h.
struct CameraRecord {
  double width_px = 0;
  double height_px = 0;
  double focal_px = 0;
  double k1 = 0;
  engine::Vec3 at;                     ///< m
  std::array<engine::Vec3, 3> axes{};  ///< right, down, forward
};

struct CaptureRecord {
  coach::Layout layout;
  std::vector<CapturedBallRecord> balls;
  std::vector<std::string> doubtful;  ///< ids, the most doubtful first
  std::vector<engine::Vec2> corners;  ///< px: bottom-left, bottom-right, top-right, top-left
  bool ends_known = true;             ///< whether anything told the baulk end from the top
  CameraRecord camera;
  double residual_px = 0;
};

[[nodiscard]] std::string write_capture(const CaptureRecord& capture);

}  // namespace ahead::formats
