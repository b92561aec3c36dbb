#pragma once

#include <array>
#include <expected>
#include <span>

#include "capture/camera/camera.h"
#include "capture/refusal.h"

/// A camera from what is known of the table and seen in the picture.
///
/// Least squares over eight unknowns (focal length, distortion, direction, place) and two more for
/// the cushions' backs, by Levenberg's and Marquardt's steps, begun from the homography of the
/// points (direct linear transform: Hartley and Zisserman, Multiple View Geometry, 2nd edition,
/// chapter 4) at several focal lengths.
namespace ahead::capture {

/// A table point and where it is seen.
struct SeenPoint {
  Vec3 point;
  Vec2 pixel;
  double sigma_px = 1;
};

/// A place on a straight line of the table, seen as an edge: only the distance across the line
/// counts.
struct SeenEdge {
  Vec3 point;      ///< on a nose line
  Vec3 direction;  ///< of the line; unit
  Vec2 pixel;
  double sigma_px = 1;
  /// Away from the bed, unit, when the edge is not the nose but the back of the cushion, where the
  /// cloth meets the wood. How far back and how high that is nobody says, but it is the same all
  /// round, and so four lines that are easily seen tell more than they ask.
  Vec3 back;
};

/// Where the cushions' backs run: so far behind the nose line, and so far above the nose.
struct CushionBack {
  double behind_m = 0.048;
  double above_m = 0.005;
};

inline constexpr int camera_unknowns = 8;
using CameraStep = std::array<double, camera_unknowns>;

/// The camera a little changed: logarithm of the focal length, k1, turns about its own axes (rad),
/// and its place (m).
[[nodiscard]] Camera changed(const Camera& camera, const CameraStep& step);

struct CameraFit {
  Camera camera;
  /// Covariance of the unknowns, in the order of CameraStep.
  std::array<CameraStep, camera_unknowns> covariance{};
  double residual_px = 0;  ///< root mean square over points and edges
  CushionBack back;
};

/// From at least four points no three of which lie on a line. Refuses points in mirrored order,
/// points that cannot be a table, and a camera below the bed.
[[nodiscard]] std::expected<CameraFit, Refusal> camera_from_points(
    std::span<const SeenPoint> points, double width_px, double height_px);

/// The camera that fits points and edges best, begun from one that is nearly right. Far-off edges
/// count less (Cauchy's weights).
[[nodiscard]] CameraFit refined(const CameraFit& start, std::span<const SeenPoint> points,
                                std::span<const SeenEdge> edges);

}  // namespace ahead::capture
