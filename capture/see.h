#pragma once

#include <expected>
#include <span>
#include <vector>

#include <opencv2/core.hpp>

#include "capture/balls/cloth.h"
#include "capture/camera/fit_camera.h"
#include "capture/capture.h"
#include "capture/refusal.h"
#include "capture/table/find_table.h"
#include "engine/equipment/table.h"

/// The two halves of a capture, for a photograph and for a frame of footage alike. Private to this
/// room. A picture is CV_32FC3 in 255ths.
namespace ahead::capture {

/// The camera, from marked points or, when there are none, from the cloth.
[[nodiscard]] std::expected<FoundTable, Refusal> see_table(const cv::Mat& picture,
                                                           const engine::Table& table,
                                                           std::span<const SeenPoint> points);

/// The balls with their colours, places and uncertainties, in no order and without ids.
[[nodiscard]] std::vector<CapturedBall> see_balls(const cv::Mat& picture, const Cloth& cloth,
                                                  const CameraFit& fit, const engine::Table& table);

/// Radius of a ball of this colour, m.
[[nodiscard]] double radius_of(const engine::Table& table, coach::Colour colour);

}  // namespace ahead::capture
