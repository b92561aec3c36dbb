#pragma once

#include <optional>
#include <span>

#include "capture/camera/fit_camera.h"
#include "capture/refusal.h"

namespace ahead::capture {

/// Whether the points can be a plane seen from above at all: every triple turns in the picture
/// against its turn on the table (the picture's y runs down), and none is flat.
[[nodiscard]] std::optional<Refusal> impossible(std::span<const SeenPoint> points, double wider_px);

}  // namespace ahead::capture
