#pragma once

#include <algorithm>
#include <cmath>

#include <opencv2/core.hpp>

#include "capture/picture/picture.h"
#include "engine/geometry/vec.h"

/// Pictures as OpenCV's matrices. Private to this room.
namespace ahead::capture {

/// The same pixels; valid as long as the picture.
[[nodiscard]] inline cv::Mat as_mat(const Picture& picture) {
  return {picture.height, picture.width, CV_8UC3, const_cast<std::uint8_t*>(picture.bgr.data())};
}

using Colour3 = cv::Vec3f;

/// Between the four nearest pixels; the border's beyond the border. Requires CV_32FC(n).
template <class Pixel>
[[nodiscard]] Pixel sampled(const cv::Mat& mat, engine::Vec2 at) {
  const float x = std::clamp(static_cast<float>(at.x), 0.0F, static_cast<float>(mat.cols - 1));
  const float y = std::clamp(static_cast<float>(at.y), 0.0F, static_cast<float>(mat.rows - 1));
  const int left = std::min(static_cast<int>(x), mat.cols - 2);
  const int top = std::min(static_cast<int>(y), mat.rows - 2);
  const float ax = x - static_cast<float>(left);
  const float ay = y - static_cast<float>(top);
  const Pixel* upper = mat.ptr<Pixel>(top) + left;
  const Pixel* lower = mat.ptr<Pixel>(top + 1) + left;
  return (1 - ay) * ((1 - ax) * upper[0] + ax * upper[1]) +
         ay * ((1 - ax) * lower[0] + ax * lower[1]);
}

[[nodiscard]] inline bool inside(const cv::Mat& mat, engine::Vec2 at, double border = 0) {
  return at.x >= border && at.y >= border && at.x <= mat.cols - 1 - border &&
         at.y <= mat.rows - 1 - border;
}

}  // namespace ahead::capture
