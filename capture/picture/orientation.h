#pragma once

#include <cstdint>
#include <span>

#include "capture/picture/picture.h"

/// How the camera was held.
///
/// Source: CIPA DC-008 (Exif 2.3), tag 274 "Orientation"; the segments of a JPEG after ITU-T T.81.
namespace ahead::capture {

/// 1 to 8 as the tag counts: 1 upright, 3 upside down, 6 to be turned clockwise by a quarter, 8
/// counter-clockwise, the others mirrored as well. 1 when a JPEG does not say.
[[nodiscard]] int jpeg_orientation(std::span<const std::uint8_t> jpeg);

/// The picture as it is to be seen. Requires 1 <= orientation <= 8.
[[nodiscard]] Picture upright(Picture picture, int orientation);

}  // namespace ahead::capture
