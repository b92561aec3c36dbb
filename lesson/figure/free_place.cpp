#include "lesson/figure/free_place.h"

#include <algorithm>
#include <limits>
#include <numbers>

namespace ahead::lesson {
namespace {

/// More room than this is no better: a number then keeps its usual place, up and to the right.
constexpr double enough = 30;

double room(Point place, double radius, std::span<const Obstacle> obstacles) {
  double least = enough;
  for (const Obstacle& each : obstacles) {
    least = std::min(least, engine::norm(place - each.at) - each.radius - radius);
  }
  return least;
}

bool within(Point place, double radius, const Drawing& drawing) {
  return place.x - radius > drawing.left && place.x + radius < drawing.left + drawing.width &&
         place.y - radius > drawing.top && place.y + radius < drawing.top + drawing.height;
}

}  // namespace

Point free_place(Point around, double distance, double radius, std::span<const Obstacle> obstacles,
                 const Drawing& keep_in) {
  constexpr int directions = 16;
  Point best = around + Point{distance, 0};
  double best_room = -std::numeric_limits<double>::infinity();
  for (int i = 0; i < directions; ++i) {
    // From up and right, clockwise.
    const double at_rad = (2.0 * i / directions - 0.25) * std::numbers::pi;
    const Point place = around + distance * engine::direction(at_rad);
    const double found = room(place, radius, obstacles);
    if (!within(place, radius, keep_in) || found <= best_room + 0.5) continue;
    best = place;
    best_room = found;
  }
  return best;
}

}  // namespace ahead::lesson
