#pragma once

#include <optional>

#include "capture/camera/camera.h"

namespace ahead::capture {

/// A camera looks along the table, and so an angle on it looks smaller or larger than it is.
struct CutAsSeen {
  double true_rad = 0;  ///< between the line of aim and the line on which the object ball leaves
  double seen_rad = 0;  ///< between the two lines in the picture
};

/// The cut of a cue ball that goes straight to `contact` and sends the object ball from there
/// towards `target`. Nothing when part of it is behind the camera.
[[nodiscard]] std::optional<CutAsSeen> cut_as_seen(const Camera& camera, Vec2 cue_ball,
                                                   Vec2 contact, Vec2 target, double radius_m);

}  // namespace ahead::capture
