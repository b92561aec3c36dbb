#include "coach/access/stance.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "coach/access/rail_section.h"

namespace ahead::coach {
namespace {

using engine::Table;
using engine::Vec2;

constexpr double nearest_m = 0.6;
constexpr double furthest_m = 1.5;
constexpr double lean_share = 0.65;  ///< of the reach, sideways

/// Of the way from `from`, outside the table, to `to`, the length that lies over it.
double over_table_m(const Table& table, Vec2 from, Vec2 to) {
  const Vec2 way = to - from;
  const auto entry = [](double start, double step, double low, double high) {
    if (start < low) return (low - start) / step;
    if (start > high) return (high - start) / step;
    return 0.0;
  };
  const double in = std::max(entry(from.x, way.x, -rail_width_m, table.width_m + rail_width_m),
                             entry(from.y, way.y, -rail_width_m, table.length_m + rail_width_m));
  return (1 - in) * engine::norm(way);
}

}  // namespace

double inside_edge_m(const Table& table, Vec2 at) {
  return std::max(
      0.0, rail_width_m + std::min({at.x, table.width_m - at.x, at.y, table.length_m - at.y}));
}

double reach_needed_m(const Table& table, const AimFrame& frame, Vec2 bridge, Hand hand,
                      double enough_m) {
  const double side = hand == Hand::right ? -1 : 1;
  const Vec2 to = frame.on_table(bridge);
  double least = std::numeric_limits<double>::infinity();
  constexpr int steps = 9;
  constexpr double furthest_lean_m = 1.0;
  for (int i = 0; i <= steps; ++i) {
    const double back = nearest_m + (furthest_m - nearest_m) * i / steps;
    for (int j = 0; j <= steps; ++j) {
      const double lean = furthest_lean_m * j / steps;
      if (lean / lean_share >= least) break;
      const Vec2 hips = frame.on_table({back, side * lean});
      if (inside_edge_m(table, hips) > 0) continue;
      least = std::min(least, std::max(lean / lean_share, over_table_m(table, hips, to)));
      if (least <= enough_m) return least;
    }
  }
  return least;
}

}  // namespace ahead::coach
