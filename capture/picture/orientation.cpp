#include "capture/picture/orientation.h"

#include <algorithm>
#include <cstddef>
#include <cstring>
#include <string_view>
#include <utility>

namespace ahead::capture {
namespace {

using Bytes = std::span<const std::uint8_t>;

/// Numbers of a TIFF header in its own byte order; 0 beyond the end.
class Tiff {
 public:
  explicit Tiff(Bytes bytes) : bytes_(bytes), big_(!bytes.empty() && bytes[0] == 'M') {}

  [[nodiscard]] std::size_t number(std::size_t at, std::size_t size) const {
    if (at > bytes_.size() || size > bytes_.size() - at) return 0;
    std::size_t value = 0;
    for (std::size_t i = 0; i < size; ++i) {
      value = value << 8U | bytes_[at + (big_ ? i : size - 1 - i)];
    }
    return value;
  }

 private:
  Bytes bytes_;
  bool big_;
};

int orientation_of_tiff(Bytes bytes) {
  const Tiff tiff(bytes);
  const std::size_t directory = tiff.number(4, 4);
  const std::size_t entries = tiff.number(directory, 2);
  for (std::size_t i = 0; i < entries; ++i) {
    const std::size_t entry = directory + 2 + 12 * i;
    if (entry >= bytes.size()) break;
    if (tiff.number(entry, 2) != 274) continue;
    const auto value = static_cast<int>(tiff.number(entry + 8, 2));
    return value >= 1 && value <= 8 ? value : 1;
  }
  return 1;
}

}  // namespace

int jpeg_orientation(Bytes jpeg) {
  constexpr std::string_view exif{"Exif\0\0", 6};
  std::size_t at = 2;  // after the start-of-image marker
  while (at + 4 <= jpeg.size() && jpeg[at] == 0xFF) {
    const std::uint8_t marker = jpeg[at + 1];
    const std::size_t length = static_cast<std::size_t>(jpeg[at + 2]) << 8U | jpeg[at + 3];
    if (marker == 0xDA || length < 2 || at + 2 + length > jpeg.size()) break;  // the scan begins
    const Bytes body = jpeg.subspan(at + 4, length - 2);
    if (marker == 0xE1 && body.size() > exif.size() &&
        std::memcmp(body.data(), exif.data(), exif.size()) == 0) {
      return orientation_of_tiff(body.subspan(exif.size()));
    }
    at += 2 + length;
  }
  return 1;
}

Picture upright(Picture picture, int orientation) {
  if (orientation == 1) return picture;
  const bool lying = orientation >= 5;
  const int w = picture.width;
  const int h = picture.height;
  Picture turned = lying ? blank_picture(h, w) : blank_picture(w, h);
  const auto from = [&](int x, int y) -> std::pair<int, int> {
    switch (orientation) {
      case 2:
        return {w - 1 - x, y};
      case 3:
        return {w - 1 - x, h - 1 - y};
      case 4:
        return {x, h - 1 - y};
      case 5:
        return {y, x};
      case 6:
        return {y, h - 1 - x};
      case 7:
        return {w - 1 - y, h - 1 - x};
      default:
        return {w - 1 - y, x};
    }
  };
  std::uint8_t* to = turned.bgr.data();
  for (int y = 0; y < turned.height; ++y) {
    for (int x = 0; x < turned.width; ++x, to += 3) {
      const auto [column, row] = from(x, y);
      const std::size_t at =
          static_cast<std::size_t>(row) * picture.stride() + static_cast<std::size_t>(column) * 3;
      std::copy_n(picture.bgr.data() + at, 3, to);
    }
  }
  return turned;
}

}  // namespace ahead::capture
