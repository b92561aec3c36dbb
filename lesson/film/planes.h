#pragma once

#include <cstddef>
#include <span>
#include <vector>

/// A frame as films store it: brightness of every pixel, and two differences of colour for every
/// two by two of them.
///
/// Only what has changed is worked out anew. Most of a lesson stands still or moves a few balls, so
/// this costs next to nothing; the encoder's own conversion of every frame took as long as the
/// encoding.
namespace ahead::lesson {

/// Pixels from the frame's top left corner.
struct Region {
  int left = 0;
  int top = 0;
  int width = 0;
  int height = 0;

  friend bool operator==(const Region&, const Region&) = default;
};

class Planes {
 public:
  /// Requires even numbers.
  Planes(int width, int height);

  /// Takes a region over from a frame of this size, rows from the top, four bytes a pixel: blue,
  /// green, red, unused. What lies outside the frame is left out.
  void take(std::span<const unsigned char> frame, const Region& region);

  /// Y, then Cb, then Cr, each row by row: ITU-R BT.709-6, 8 bits, narrow range (section 4), the
  /// colour of two by two pixels being that of their mean.
  [[nodiscard]] std::span<const unsigned char> bytes() const { return bytes_; }

 private:
  int width_;
  int height_;
  std::vector<unsigned char> bytes_;
};

}  // namespace ahead::lesson
