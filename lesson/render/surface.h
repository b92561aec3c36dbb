#pragma once

#include <memory>

#include <cairo.h>

/// cairo's objects with owners. Private to the rooms that draw with it.
namespace ahead::lesson {

struct SurfaceEnd {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
using Surface = std::unique_ptr<cairo_surface_t, SurfaceEnd>;

struct CairoEnd {
  void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
};
using Cairo = std::unique_ptr<cairo_t, CairoEnd>;

[[nodiscard]] inline Surface image(int width, int height) {
  return Surface(cairo_image_surface_create(CAIRO_FORMAT_ARGB32, width, height));
}

[[nodiscard]] inline Cairo pen_on(const Surface& surface) {
  return Cairo(cairo_create(surface.get()));
}

}  // namespace ahead::lesson
