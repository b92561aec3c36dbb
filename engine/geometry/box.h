#pragma once

#include <algorithm>

#include "engine/geometry/vec.h"

/// An upright rectangle in plan: the cheap question before the exact one.
namespace ahead::engine {

struct Box {
  Vec2 low;
  Vec2 high;
};

constexpr Box box_of(Vec2 a, Vec2 b) {
  return {{std::min(a.x, b.x), std::min(a.y, b.y)}, {std::max(a.x, b.x), std::max(a.y, b.y)}};
}

constexpr Box with(const Box& box, Vec2 p) {
  return {{std::min(box.low.x, p.x), std::min(box.low.y, p.y)},
          {std::max(box.high.x, p.x), std::max(box.high.y, p.y)}};
}

/// The box of a disc.
constexpr Box around(Vec2 centre, double radius) {
  return {{centre.x - radius, centre.y - radius}, {centre.x + radius, centre.y + radius}};
}

constexpr Box grown(const Box& box, double margin) {
  return {{box.low.x - margin, box.low.y - margin}, {box.high.x + margin, box.high.y + margin}};
}

constexpr bool inside(const Box& inner, const Box& outer) {
  return inner.low.x >= outer.low.x && inner.high.x <= outer.high.x && inner.low.y >= outer.low.y &&
         inner.high.y <= outer.high.y;
}

/// Whether the boxes, one of them grown by `margin` on every side, share a point.
constexpr bool near(const Box& a, const Box& b, double margin) {
  return a.low.x - margin <= b.high.x && b.low.x - margin <= a.high.x &&
         a.low.y - margin <= b.high.y && b.low.y - margin <= a.high.y;
}

}  // namespace ahead::engine
