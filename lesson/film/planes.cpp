#include "lesson/film/planes.h"

#include <algorithm>

namespace ahead::lesson {
namespace {

// ITU-R BT.709-6, table 3: E'Y = 0.2126 R + 0.7152 G + 0.0722 B, E'Cb = (B - E'Y) / 1.8556,
// E'Cr = (R - E'Y) / 1.5748; table 4: Y = 219 E'Y + 16, C = 224 E'C + 128. In 16 bits of fraction,
// for bytes of 0 to 255; each row of the differences sums to nought, so that greys stay grey.
constexpr int fraction_bits = 16;
constexpr int half = 1 << (fraction_bits - 1);

struct Weights {
  int red, green, blue;
};

constexpr double luma_red = 0.2126;
constexpr double luma_blue = 0.0722;
constexpr int scaled(double weight) {
  return static_cast<int>((weight * (1 << fraction_bits)) + (weight < 0 ? -0.5 : 0.5));
}
constexpr double y_step = 219.0 / 255;
constexpr double cb_step = 224.0 / 255 / 1.8556;
constexpr double cr_step = 224.0 / 255 / 1.5748;

constexpr Weights y_weights{scaled(luma_red * y_step), scaled((1 - luma_red - luma_blue) * y_step),
                            scaled(luma_blue* y_step)};
constexpr Weights cb_weights{scaled(-luma_red * cb_step),
                             -scaled(-luma_red* cb_step) - scaled((1 - luma_blue) * cb_step),
                             scaled((1 - luma_blue) * cb_step)};
constexpr Weights cr_weights{scaled((1 - luma_red) * cr_step),
                             -scaled((1 - luma_red) * cr_step) - scaled(-luma_blue* cr_step),
                             scaled(-luma_blue* cr_step)};

unsigned char level(const Weights& w, int red, int green, int blue, int base) {
  const int sum = w.red * red + w.green * green + w.blue * blue;
  return static_cast<unsigned char>(base + ((sum + half) >> fraction_bits));
}

constexpr int black = 16;
constexpr int no_colour = 128;

}  // namespace

Planes::Planes(int width, int height)
    : width_(width),
      height_(height),
      bytes_(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 3 / 2, black) {}

void Planes::take(std::span<const unsigned char> frame, const Region& region) {
  constexpr std::size_t pixel = 4;
  // Whole pairs of rows and columns, since they share their colour.
  const int left = std::max(0, region.left) / 2 * 2;
  const int top = std::max(0, region.top) / 2 * 2;
  const int right = std::min(width_, (region.left + region.width + 1) / 2 * 2);
  const int bottom = std::min(height_, (region.top + region.height + 1) / 2 * 2);
  const auto w = static_cast<std::size_t>(width_);
  const auto area = w * static_cast<std::size_t>(height_);

  for (int y = top; y < bottom; y += 2) {
    const std::size_t row = static_cast<std::size_t>(y) * w;
    const std::size_t colour_row = area + static_cast<std::size_t>(y / 2) * (w / 2);
    for (int x = left; x < right; x += 2) {
      const std::size_t at = row + static_cast<std::size_t>(x);
      int red = 0;
      int green = 0;
      int blue = 0;
      for (const std::size_t one : {at, at + 1, at + w, at + w + 1}) {
        const unsigned char* bgr = frame.data() + pixel * one;
        bytes_[one] = level(y_weights, bgr[2], bgr[1], bgr[0], black);
        blue += bgr[0];
        green += bgr[1];
        red += bgr[2];
      }
      const auto mean = [](int sum) { return (sum + 2) / 4; };
      const std::size_t colour = colour_row + static_cast<std::size_t>(x / 2);
      bytes_[colour] = level(cb_weights, mean(red), mean(green), mean(blue), no_colour);
      bytes_[colour + area / 4] = level(cr_weights, mean(red), mean(green), mean(blue), no_colour);
    }
  }
}

}  // namespace ahead::lesson
