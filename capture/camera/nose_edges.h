#pragma once

#include <vector>

#include <opencv2/core.hpp>

#include "capture/balls/cloth.h"
#include "capture/camera/camera.h"
#include "capture/camera/fit_camera.h"
#include "engine/equipment/table.h"

/// The cushions in a picture. Private to this room.
namespace ahead::capture {

/// Places where the straight noses are seen as edges, within `reach_px` of where `camera` expects
/// them. Along a nose the edge may lie aside and be bowed; what is found is the line that most of
/// it agrees with. A nose whose edge is faint gives none.
///
/// `picture` is CV_32FC3. What has another colour than the cloth is no nose (wood, balls, hands).
[[nodiscard]] std::vector<SeenEdge> nose_edges(const cv::Mat& picture, const Camera& camera,
                                               const engine::Table& table, double reach_px);

/// Share of the noses along which an edge runs where `camera` expects it, with cloth on both sides:
/// 0 to 1. A nose that the picture does not show says nothing.
[[nodiscard]] double noses_seen(const cv::Mat& picture, const Cloth& cloth, const Camera& camera,
                                const engine::Table& table);

/// Places where the cloth of the cushions ends, behind the noses: see SeenEdge::back. None where
/// wood and cloth look alike. They are sought from so far behind the noses outwards.
[[nodiscard]] std::vector<SeenEdge> back_edges(const cv::Mat& picture, const Cloth& cloth,
                                               const CameraFit& fit, const engine::Table& table,
                                               double from_m = 0.01);

}  // namespace ahead::capture
