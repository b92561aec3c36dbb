#include "lesson/figure/view.h"

#include <algorithm>

namespace ahead::lesson {

Drawing table_drawing(const engine::Table& table) {
  constexpr double edge = 10;   // paper beyond the outermost mark
  constexpr double tape = 106;  // room of the tape with its figures
  constexpr double name = 44;   // room of a pocket's name above it
  double out = 0;               // how far pockets reach beyond the playing area
  for (const engine::Pocket& pocket : table.pockets) {
    const auto [x, y] = pocket.centre;
    const double r = pocket.fall_radius_m;
    out = std::max({out, 1000 * (r - x), 1000 * (x + r - table.width_m), 1000 * (r - y),
                    1000 * (y + r - table.length_m)});
  }
  const double left = std::max(out, tape) + edge;
  const double right = out + edge;
  const double top = out + name + edge;
  const double bottom = std::max(out + name, tape) + edge;
  return {.left = -left,
          .top = -top,
          .width = 1000 * table.width_m + left + right,
          .height = 1000 * table.length_m + top + bottom};
}

}  // namespace ahead::lesson
