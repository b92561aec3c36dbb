#pragma once

#include <array>
#include <vector>

#include <opencv2/core.hpp>

#include "engine/geometry/vec.h"

/// Where in a picture the cloth may be, by its colour. Private to this room.
namespace ahead::capture {

using engine::Vec2;

/// The four corners of something, against the clock as seen.
using Corners = std::array<Vec2, 4>;

struct ClothRegion {
  Corners corners;   ///< px; where its sides cross, which may be beyond the picture
  double score = 0;  ///< the more it is four-cornered, large and clear of the picture's border
};

/// Large regions of one colour with four straight sides, the likeliest first. `picture` is
/// CV_32FC3.
[[nodiscard]] std::vector<ClothRegion> cloth_regions(const cv::Mat& picture);

}  // namespace ahead::capture
