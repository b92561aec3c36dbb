#include "lesson/figure/hairline.h"

#include <fmt/format.h>

namespace ahead::lesson {

std::string hairline_mark(Point from, Point to, std::string_view name, std::string_view css_class,
                          const Drawing& keep_in) {
  const Point along = engine::unit(to - from);
  // The name starts where the line stops and runs away from it; a steep line carries it above.
  std::string_view anchor = along.x > 0.35 ? "start" : along.x < -0.35 ? "end" : "middle";
  double below = along.y > 0.5 ? 26 : along.y < -0.5 ? -8 : 8;
  const double letter = 11;  // wide, about
  const double length = letter * static_cast<double>(name.size());
  if (anchor == "start" && to.x + length > keep_in.left + keep_in.width) {
    anchor = "end";
    below = 26;
  } else if (anchor == "end" && to.x - length < keep_in.left) {
    anchor = "start";
    below = 26;
  }
  const Point place{to.x + 8 * along.x, to.y + below};
  return line(from, to, fmt::format("hairline {}", css_class)) +
         (name.empty() ? std::string{}
                       : text(place, name, fmt::format("hairline-name {}", anchor)));
}

}  // namespace ahead::lesson
