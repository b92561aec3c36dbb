#pragma once

#include <optional>

#include <opencv2/core.hpp>

#include "capture/balls/cloth.h"
#include "capture/camera/fit_camera.h"
#include "engine/equipment/table.h"

/// What speaks for a camera that was found on a table nobody marked. Private to this room.
namespace ahead::capture {

struct Reading {
  CameraFit fit;
  double baulk = 0;  ///< by how much the baulk line is better seen where it is than at the top
  /// From what is seen where this camera expects it: pockets, noses, bed and baulk line, a usual
  /// lens, and a small residual. About 0.3 to 1.1 for a camera that is right.
  double score = 0;
};

/// Nothing for a camera below the bed. `cloth` was learnt through this camera, or nearly.
[[nodiscard]] std::optional<Reading> judged_reading(const cv::Mat& picture, const Cloth& cloth,
                                                    const engine::Table& table,
                                                    const CameraFit& fit);

}  // namespace ahead::capture
