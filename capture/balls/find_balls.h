#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "capture/balls/cloth.h"
#include "capture/balls/fit_outline.h"
#include "capture/camera/camera.h"
#include "engine/equipment/table.h"

/// The balls of a picture, before anyone says which is which. Private to this room.
namespace ahead::capture {

struct FoundBall {
  OutlineFit fit;
  double radius_m = 0;  ///< the one that it was fitted with
  double fill = 0;      ///< share of what is seen of it that is no cloth
  double quality = 0;   ///< 0 to 1: how much it looks like a ball
};

/// Every place of the bed is asked whether a ball there would look like the picture: no cloth
/// inside its outline, an edge along it. Those that stand before others are taken first, and what
/// they hide is not held against the ones behind.
[[nodiscard]] std::vector<FoundBall> find_balls(const cv::Mat& picture, const Cloth& cloth,
                                                const Camera& camera, const engine::Table& table);

}  // namespace ahead::capture
