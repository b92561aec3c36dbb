#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "capture/camera/fit_camera.h"
#include "engine/equipment/table.h"

/// The one straight line across a bed: the baulk line. Private to this room.
namespace ahead::capture {

/// Share of the places across the bed, `y_m` from the bottom cushion, at which a line stands out.
/// `picture` is CV_32FC3.
[[nodiscard]] double line_seen(const cv::Mat& picture, const Camera& camera,
                               const engine::Table& table, double y_m);

struct CrossLine {
  double y_m = 0;
  double seen = 0;  ///< 0 to 1, as line_seen
};

/// Where on the bed a line stands out best, by this camera.
[[nodiscard]] CrossLine brightest_line(const cv::Mat& picture, const Camera& camera,
                                       const engine::Table& table);

/// The places of a line that `camera` sees at `seen_y_m` and that lies at `true_y_m`.
[[nodiscard]] std::vector<SeenEdge> line_edges(const Camera& camera, const engine::Table& table,
                                               double seen_y_m, double true_y_m);

}  // namespace ahead::capture
