#pragma once

#include <array>
#include <optional>
#include <span>
#include <vector>

#include <opencv2/core.hpp>

#include "capture/balls/cloth.h"
#include "capture/camera/camera.h"

/// A ball's place from its outline. Private to this room.
///
/// A sphere seen through a known camera has a known outline with two unknowns, its place on the
/// bed: radius and height are given. The outline is laid on the picture's edges by least squares
/// along its normals, leaving out what another ball hides; the curvature gives the covariance.
namespace ahead::capture {

/// Symmetric, m^2.
struct Covariance2 {
  double xx = 0;
  double xy = 0;
  double yy = 0;
};

/// A ball as the search knows it.
struct Sphere {
  Vec2 at;
  double radius_m = 0;
};

struct OutlineFit {
  Vec2 at;
  Covariance2 covariance;  ///< from the pixels alone
  double seen = 0;         ///< share of the outline that nothing known hides
  double supported = 0;    ///< share of the seen outline where an edge lies
  double rms_px = 0;       ///< of those edges
  double apparent_px = 0;  ///< mean radius of the outline
};

/// `hiding` are the balls that may stand before this one. Nothing when too little is seen.
[[nodiscard]] std::optional<OutlineFit> fit_outline(const cv::Mat& picture, const Cloth& cloth,
                                                    const Camera& camera, const Sphere& start,
                                                    std::span<const Sphere> hiding);

}  // namespace ahead::capture
