#pragma once

#include <optional>

#include <opencv2/core.hpp>

#include "capture/balls/cloth.h"
#include "capture/camera/fit_camera.h"
#include "engine/equipment/table.h"

/// What speaks for a camera that was found on a table nobody marked. Private to this room.
namespace ahead::capture {

/// What was seen of a table where a camera expects it; all shares from 0 to 1.
struct Signs {
  double pockets = 0;  ///< of the pockets' mouths that do not look like cloth
  double noses = 0;    ///< of the noses along which an edge runs between cloth and cloth
  double bed = 0;      ///< of the bed that is cloth
  double usual = 0;    ///< how far the lens is one that people have
};

struct Reading {
  CameraFit fit;
  Signs signs;
  double baulk = 0;  ///< by how much the baulk line is better seen where it is than at the top
  double score = 0;  ///< from these and the residual; about 0.3 to 1.1 for a camera that is right
};

/// Nothing for a camera below the bed. `cloth` was learnt through this camera, or nearly.
[[nodiscard]] std::optional<Reading> judged_reading(const cv::Mat& picture, const Cloth& cloth,
                                                    const engine::Table& table,
                                                    const CameraFit& fit);

}  // namespace ahead::capture
