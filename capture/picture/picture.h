#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace ahead::capture {

/// A picture in memory: rows from the top, three bytes a pixel: blue, green, red (sRGB).
///
/// Places in a picture are in pixels, x to the right and y down; (0, 0) is the middle of the first
/// pixel.
struct Picture {
  int width = 0;
  int height = 0;
  std::vector<std::uint8_t> bgr;

  [[nodiscard]] std::size_t stride() const { return static_cast<std::size_t>(width) * 3; }
  friend bool operator==(const Picture&, const Picture&) = default;
};

[[nodiscard]] inline Picture blank_picture(int width, int height) {
  Picture picture{.width = width, .height = height};
  picture.bgr.resize(picture.stride() * static_cast<std::size_t>(height));
  return picture;
}

}  // namespace ahead::capture
