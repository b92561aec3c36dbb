#pragma once

#include <utility>
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

/// When the last ball came to rest, from how much each frame differs from those after it. A ball
/// that rolls to rest at T has a (T - t)^2 / 2 to go, and a small shift changes a picture in its
/// own measure: so the root of the change falls evenly, and the line through it meets nought at T.
/// `changes` are times and differences, `noise` the difference of frames that are known to be
/// still; `fallback_s` when they tell nothing.
[[nodiscard]] double moment_of_rest(const std::vector<std::pair<double, double>>& changes,
                                    double noise, double fallback_s);

}  // namespace ahead::capture
