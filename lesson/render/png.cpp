#include "lesson/render/png.h"

#include <cassert>
#include <cmath>

#include "lesson/render/surface.h"
#include "lesson/render/svg_picture.h"

namespace ahead::lesson {
namespace {

cairo_status_t append(void* text, const unsigned char* bytes, unsigned int count) {
  static_cast<std::string*>(text)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

std::string png_of(std::string_view svg, int width) {
  assert(width >= 1 && width <= most_pixels);
  const SvgPicture picture(svg);
  const int height = static_cast<int>(std::lround(width / picture.aspect()));
  const Surface surface = image(width, height);
  // The height is rounded to a pixel, so the picture is drawn half a pixel over every edge.
  picture.draw(pen_on(surface).get(), {-0.5, -0.5, width + 1.0, height + 1.0});
  std::string png;
  cairo_surface_write_to_png_stream(surface.get(), append, &png);
  return png;
}

}  // namespace ahead::lesson
