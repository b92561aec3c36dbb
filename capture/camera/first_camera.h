#pragma once

#include <optional>
#include <span>

#include <opencv2/core.hpp>

#include "capture/camera/camera.h"
#include "capture/camera/fit_camera.h"

/// A first guess at a camera, from points that lie almost in a plane. Private to this room.
/// Source: Hartley and Zisserman, Multiple View Geometry, 2nd edition, chapter 4.
namespace ahead::capture {

/// From the bed in metres to the picture, its middle the origin and its wider side the unit, by the
/// direct linear transform. `camera` says the picture's size.
[[nodiscard]] cv::Matx33d plan_to_picture(std::span<const SeenPoint> points, const Camera& camera);

/// The camera that sees a plane `height_m` above the bed so, at this focal length in wider sides;
/// nothing when it would stand below the bed.
[[nodiscard]] std::optional<Camera> camera_of_plan(const cv::Matx33d& h, double focal,
                                                   Camera camera, double height_m);

}  // namespace ahead::capture
