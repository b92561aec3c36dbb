#pragma once

#include <optional>

#include <opencv2/core.hpp>

#include "capture/table/cloth_regions.h"
#include "capture/table/reading.h"
#include "engine/equipment/table.h"

/// From four corners in a picture to a camera, if they are those of a table. Private to this room.
namespace ahead::capture {

/// What a region of the cloth's colour is taken to end at: the cushions' backs; or, where wood and
/// cloth look alike, the outside of the wood, so far behind the noses and, on the sides that face
/// the camera, so far below them.
struct Rim {
  double behind_m = 0;
  double below_m = 0;
};

/// The camera that sees the table where these corners are, sought from them on. `first` of them is
/// the bottom left one; without a rim they are those of the cushions' backs.
[[nodiscard]] std::optional<Reading> read_corners(const cv::Mat& picture,
                                                  const engine::Table& table,
                                                  const Corners& corners, std::size_t first,
                                                  const std::optional<Rim>& rim);

/// The same camera's noses sought anew, from a little further off, and with a line across the bed
/// brought to where the baulk line is; the better of both.
[[nodiscard]] Reading read_again(const cv::Mat& picture, const engine::Table& table,
                                 const Reading& reading);

}  // namespace ahead::capture
