#pragma once

#include <vector>

#include "engine/equipment/table.h"

/// Nose lines of whole tables from a few measures of their pockets.
///
/// Rounded jaw (English pool, snooker): the nose line, then an arc of radius j, then a straight
/// wall parallel to the pocket's axis, the two walls `width_at_fall` apart. Straight-cut jaw
/// (American pool): the nose line meets a straight facing at a point; the pocket closes by 7
/// degrees a side in a corner (cut angle 142 degrees) and by 14 in a middle pocket (104).
///
/// Source: docs/equipment.md; the fall of a corner pocket stands where the projected nose lines
/// cross (UK trade standard), that of a middle pocket on the nose line (assumption).
namespace ahead::engine {

struct RoundedJaws {
  double corner_width_at_fall_m = 0;
  double middle_width_at_fall_m = 0;
  double corner_radius_m = 0;
  double middle_radius_m = 0;
};

struct StraightJaws {
  double corner_mouth_m = 0;
  double middle_mouth_m = 0;
  double corner_shelf_m = 0;  ///< from the middle of the mouth line to the drop
  double middle_shelf_m = 0;
  double corner_closing_rad = 0;  ///< a side, against the pocket's axis
  double middle_closing_rad = 0;
};

/// Rails and pockets, ready to be put into a table.
struct Outline {
  std::vector<Rail> rails;
  std::vector<Pocket> pockets;
};

[[nodiscard]] Outline rounded_outline(double width_m, double length_m, const RoundedJaws& jaws);
[[nodiscard]] Outline straight_outline(double width_m, double length_m, const StraightJaws& jaws);

}  // namespace ahead::engine
