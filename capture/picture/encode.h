#pragma once

#include <cstdint>
#include <span>
#include <string>

#include "capture/picture/picture.h"

namespace ahead::capture {

/// The picture as a PNG.
[[nodiscard]] std::string png_of(const Picture& picture);

/// As a PNG that is see-through where `cover` is 0 and opaque where it is 255. Requires a byte a
/// pixel.
[[nodiscard]] std::string png_of(const Picture& picture, std::span<const std::uint8_t> cover);

}  // namespace ahead::capture
