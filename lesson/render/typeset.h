#pragma once

#include <string_view>

#include "lesson/render/surface.h"

/// Words set by pango on any cairo surface: real letters, in the fonts of the house.
namespace ahead::lesson {

enum class Face { heading, heading_strong, body, body_strong, small };

struct Setting {
  Face face = Face::body;
  double size = 10;       ///< of the letters, in units of the surface
  double leading = 1.25;  ///< line height over size
  double grey = 0.13;     ///< 0 is black
};

/// Sets the words in a column of `width` from (left, top) down, and says how high they are.
double set_words(cairo_t* cairo, std::string_view words, double left, double top, double width,
                 const Setting& setting);

/// How high they would be.
[[nodiscard]] double height_of(cairo_t* cairo, std::string_view words, double width,
                               const Setting& setting);

}  // namespace ahead::lesson
