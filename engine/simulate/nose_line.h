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
  Vec2 from;                 ///< unit, from the centre to the arc's beginning
  Vec2 to;                   ///< and to its end, counter-clockwise
  bool beyond_half = false;  ///< more than half a turn from `from` to `to`
  Box box;                   ///< of the arc alone

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
