#pragma once

#include <vector>

#include "engine/equipment/table.h"
#include "engine/geometry/box.h"

/// The cushion's nose, prepared for the question "when does a ball touch it?".
///
/// Straight pieces, arcs, and the sharp corners where two pieces meet at an angle (pointed jaws);
/// smooth joints need no corner of their own.
namespace ahead::engine {

struct NoseSegment {
  Vec2 from;
  Vec2 along;  ///< unit
  double length_m = 0;
  Box box;
};

struct NoseArc {
  Vec2 centre;
  double radius_m = 0;
  double from_rad = 0;
  double sweep_rad = 0;  ///< counter-clockwise, 0 to 2 pi
  Box box;               ///< of the whole circle

  [[nodiscard]] bool covers(Vec2 from_centre) const;
};

struct NoseLine {
  std::vector<NoseSegment> segments;
  std::vector<NoseArc> arcs;
  std::vector<Vec2> corners;
};

[[nodiscard]] NoseLine nose_line(const std::vector<Rail>& rails);

/// The point of the nose line that is nearest to `p`.
[[nodiscard]] Vec2 nearest_on(const NoseLine& nose, Vec2 p);

}  // namespace ahead::engine
