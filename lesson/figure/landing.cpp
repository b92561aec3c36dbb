#include "lesson/figure/landing.h"

namespace ahead::lesson {
namespace {

constexpr std::size_t least_landings = 20;

std::string rings_mark(const std::vector<Ring>& rings, const View& view,
                       std::string_view css_class) {
  std::string data;
  for (const Ring& ring : rings) {
    std::vector<Point> points;
    for (const engine::Vec2 place : ring) points.push_back(view.at(place));
    data += closed_outline(points);
  }
  return path(data, css_class);
}

}  // namespace

LandingContours landing_contours(std::span<const engine::Vec2> landings, const engine::Table& table,
                                 double spacing_m) {
  if (landings.size() < least_landings) return {};
  const Lattice density =
      density_of(landings, {.from = {0, 0}, .to = {table.width_m, table.length_m}}, spacing_m);
  return {.half = contour(density, level_holding(density, landings, 0.5)),
          .nine_tenths = contour(density, level_holding(density, landings, 0.9))};
}

std::string landing_mark(const LandingContours& contours, const View& view) {
  return group("landing", rings_mark(contours.nine_tenths, view, "nine-tenths") +
                              rings_mark(contours.half, view, "half"));
}

}  // namespace ahead::lesson
