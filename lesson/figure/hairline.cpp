#include "lesson/figure/hairline.h"

#include <fmt/format.h>

namespace ahead::lesson {

std::string hairline_mark(Point from, Point to, std::string_view name, std::string_view css_class) {
  const Point along = engine::unit(to - from);
  // The name starts where the line stops and runs away from it; a steep line carries it above.
  const std::string_view anchor = along.x > 0.35 ? "start" : along.x < -0.35 ? "end" : "middle";
  const double below = along.y > 0.5 ? 26 : along.y < -0.5 ? -8 : 8;
  const Point place{to.x + 8 * along.x, to.y + below};
  return line(from, to, fmt::format("hairline {}", css_class)) +
         (name.empty() ? std::string{}
                       : text(place, name, fmt::format("hairline-name {}", anchor)));
}

}  // namespace ahead::lesson
