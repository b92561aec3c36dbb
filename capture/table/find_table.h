#pragma once

#include <expected>

#include <opencv2/core.hpp>

#include "capture/camera/fit_camera.h"
#include "capture/refusal.h"
#include "engine/equipment/table.h"

/// The table in a picture that nobody has marked. Private to this room.
///
/// Cloth is one colour over a large part of the picture, bounded by four lines: the cushions'
/// backs. Each likely region gives four corners, each of which may be the bottom left one; the
/// reading whose pockets, noses and markings are where they should be is taken. A table without
/// markings looks the same from both ends: then the baulk end is taken to be the one nearer to the
/// camera.
namespace ahead::capture {

struct FoundTable {
  CameraFit fit;
  bool ends_known = false;  ///< whether anything told the baulk end from the top
};

/// `picture` is CV_32FC3.
[[nodiscard]] std::expected<FoundTable, Refusal> find_table(const cv::Mat& picture,
                                                            const engine::Table& table);

}  // namespace ahead::capture
