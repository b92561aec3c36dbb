#include "capture/camera/possible_points.h"

#include <cmath>
#include <cstddef>

namespace ahead::capture {
namespace {

double area(Vec2 a, Vec2 b, Vec2 c) { return cross(b - a, c - a) / 2; }

}  // namespace

std::optional<Refusal> impossible(std::span<const SeenPoint> points, double wider_px) {
  int right_way = 0;
  int mirrored = 0;
  int flat = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    for (std::size_t j = i + 1; j < points.size(); ++j) {
      for (std::size_t k = j + 1; k < points.size(); ++k) {
        const double table =
            area(plan(points[i].point), plan(points[j].point), plan(points[k].point));
        if (std::abs(table) < 1e-3) continue;  // on one line of the table
        const double seen = area(points[i].pixel, points[j].pixel, points[k].pixel);
        if (std::abs(seen) < 1e-3 * wider_px * wider_px) {
          ++flat;
        } else {
          ++(table * seen < 0 ? right_way : mirrored);
        }
      }
    }
  }
  if (right_way + mirrored + flat < 4) {
    return Refusal{.wrong = "the points say too little: fewer than four that no line joins",
                   .mend = "give the four corners, or four points of which no three are in line"};
  }
  if (mirrored > 0 && right_way == 0 && flat == 0) {
    return Refusal{.wrong = "the points are in mirrored order",
                   .mend =
                       "name the corners bottom-left, bottom-right, top-right, top-left, as "
                       "they follow each other against the clock"};
  }
  if (mirrored > 0) {
    return Refusal{.wrong = "the points cannot be a table: some are crossed over",
                   .mend =
                       "name the corners bottom-left, bottom-right, top-right, top-left, as "
                       "they follow each other against the clock"};
  }
  if (flat > 0) {
    return Refusal{.wrong = "three of the points lie almost on a line in the picture",
                   .mend = "give points that lie further apart, or a photograph from higher up"};
  }
  return std::nullopt;
}

}  // namespace ahead::capture
