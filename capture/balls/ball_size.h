#pragma once

#include <optional>

#include <opencv2/core.hpp>

#include "capture/camera/camera.h"
#include "engine/equipment/table.h"

/// How large the balls of a picture are. Private to this room.
namespace ahead::capture {

/// The balls' radius as a share of this table's: the one at which what is found looks most like
/// balls. Nothing when too few are found to tell. A camera found on a table of another size has the
/// wrong scale, and this shows it.
[[nodiscard]] std::optional<double> ball_size(const cv::Mat& picture, const Camera& camera,
                                              const engine::Table& table);

}  // namespace ahead::capture
