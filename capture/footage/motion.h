#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "capture/camera/camera.h"
#include "capture/picture/picture.h"
#include "engine/equipment/table.h"

/// Whether anything moves on the bed. Private to this room.
namespace ahead::capture {

/// A frame made small and grey: what is compared from frame to frame.
[[nodiscard]] cv::Mat small_grey(const Picture& frame);

/// Which of its pixels are bed, cushion or just above it. Same size.
[[nodiscard]] cv::Mat bed_mask(const Camera& camera, const engine::Table& table, cv::Size small);

/// How much two small frames differ where they differ most, in 255ths: the mean over a block of
/// 4 x 4 pixels, so that noise goes and a ball stays.
[[nodiscard]] double most_change(const cv::Mat& one, const cv::Mat& other, const cv::Mat& mask);

}  // namespace ahead::capture
