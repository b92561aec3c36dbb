#pragma once

#include <span>

#include "lesson/figure/svg.h"

namespace ahead::lesson {

/// Something that a number or a name must not cover.
struct Obstacle {
  Point at;
  double radius = 0;
};

/// The place at `distance` from `around` with the most room, among sixteen directions. `keep_in` is
/// the picture; places closer than `radius` to its edge are not taken.
[[nodiscard]] Point free_place(Point around, double distance, double radius,
                               std::span<const Obstacle> obstacles, const Drawing& keep_in);

}  // namespace ahead::lesson
