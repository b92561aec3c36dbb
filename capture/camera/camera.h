#pragma once

#include <array>
#include <optional>
#include <vector>

#include "engine/geometry/vec.h"

/// A camera over a table: where a point of the table is seen in the picture, and back.
///
/// A pinhole with square pixels, its axis through the middle of the picture, and one coefficient of
/// radial distortion: a point seen at (x, y) on the plane one unit before the pinhole, r from the
/// axis, lands at f (1 + k1 r^2) (x, y) from the middle. Source: Brown, "Close-range camera
/// calibration", Photogrammetric Engineering 37 (1971), cut after its first term.
///
/// Table points are in metres in the table's frame (docs/architecture.md), places in the picture in
/// pixels, x right and y down. The camera's own axes: x right, y down, z forward.
namespace ahead::capture {

using engine::Vec2;
using engine::Vec3;

struct Camera {
  double width_px = 0;  ///< of the picture
  double height_px = 0;
  double focal_px = 0;
  double k1 = 0;
  std::array<Vec3, 3>
      axes{};  ///< right, down and forward, in the table's frame; unit, right-handed
  Vec3 at;     ///< the pinhole, in the table's frame, m

  friend bool operator==(const Camera&, const Camera&) = default;
};

/// A direction in the camera's own axes; its length has no meaning.
[[nodiscard]] Vec3 seen_from(const Camera& camera, Vec3 point);

/// Where something in this direction (in the camera's own axes) is seen. Nothing when it lies
/// behind the camera, or so far aside that the distortion folds back.
[[nodiscard]] std::optional<Vec2> pixel_of_direction(const Camera& camera, Vec3 direction);

/// Where a table point is seen.
[[nodiscard]] std::optional<Vec2> pixel_of(const Camera& camera, Vec3 point);

/// The direction, in the table's frame, in which a pixel looks; unit.
[[nodiscard]] Vec3 ray_of(const Camera& camera, Vec2 pixel);

/// The point seen at a pixel, if it lies `height_m` above the bed. Nothing when the pixel looks
/// above the horizon.
[[nodiscard]] std::optional<Vec2> on_plane(const Camera& camera, Vec2 pixel, double height_m);

/// The outline of a ball, as `count` places around it: where the cone of rays that just touch it
/// meets the picture. For a pinhole it is an ellipse whose middle is not where the ball's centre is
/// seen. Empty when part of it is behind the camera.
[[nodiscard]] std::vector<Vec2> outline_of(const Camera& camera, Vec3 centre, double radius_m,
                                           int count);

/// The same camera for the picture made smaller or larger by `scale`.
[[nodiscard]] Camera scaled(const Camera& camera, double scale);

}  // namespace ahead::capture
