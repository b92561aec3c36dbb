#pragma once

#include <vector>

#include "lesson/figure/density.h"

/// Lines of equal value: marching squares.
namespace ahead::lesson {

/// A closed line, SI.
using Ring = std::vector<engine::Vec2>;

/// The rings along which `lattice` equals `level`, higher values inside (to the left of the line's
/// direction). A saddle is split by its mean. Requires values below `level` along the edge, so
/// every line closes, and level > 0.
///
/// Source: Lorensen and Cline, SIGGRAPH 1987, in two dimensions.
[[nodiscard]] std::vector<Ring> contour(const Lattice& lattice, double level);

/// Whether `place` lies inside an odd number of the rings.
[[nodiscard]] bool inside(const std::vector<Ring>& rings, engine::Vec2 place);

}  // namespace ahead::lesson
