#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "capture/camera/camera.h"
#include "capture/camera/fit_camera.h"
#include "engine/equipment/table.h"

/// The cushion noses in a picture. Private to this room.
namespace ahead::capture {

/// Places where the straight noses are seen as edges, within `reach_px` of where `camera` expects
/// them. Along a nose the edge may lie aside and be bowed; what is found is the line that most of
/// it agrees with. A nose whose edge is faint gives none.
///
/// `picture` is CV_32FC3. What has another colour than the cloth is no nose (wood, balls, hands).
[[nodiscard]] std::vector<SeenEdge> nose_edges(const cv::Mat& picture, const Camera& camera,
                                               const engine::Table& table, double reach_px);

}  // namespace ahead::capture
