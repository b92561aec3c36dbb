#pragma once

#include <string>
#include <string_view>

namespace ahead::lesson {

/// The widest picture that is made, pixels: "4K" as cinemas count it.
inline constexpr int most_pixels = 4096;

/// The SVG as a PNG of `width` pixels, as high as its shape asks for; transparent where nothing is
/// drawn. Requires 1 <= width <= most_pixels. The same text, fonts and libraries give the same
/// bytes.
[[nodiscard]] std::string png_of(std::string_view svg, int width);

}  // namespace ahead::lesson
