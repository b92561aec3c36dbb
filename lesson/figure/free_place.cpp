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

Point free_end(Point from, Point along, std::span<const Obstacle> obstacles,
               const Drawing& keep_in) {
  constexpr double name_radius = 80;  // half the width of a name
  constexpr double clear = 6;         // room enough: the shortest such line is taken
  Point best = from + 160 * along;
  double best_room = -std::numeric_limits<double>::infinity();
  constexpr int lengths = 11;  // from 130 mm in steps of 30
  for (int i = 0; i < lengths; ++i) {
    const Point end = from + (130 + 30.0 * i) * along;
    // The name lies beyond the end: beside it, or above or below when the line is steep.
    const double beside = along.x > 0.35 ? 1 : along.x < -0.35 ? -1 : 0;
    const Point middle = end + Point{name_radius * beside, 18 * along.y};
    if (!within(middle, name_radius, keep_in)) continue;
    const double found =
        std::min({room(middle, 30, obstacles), room(middle + Point{50, 0}, 22, obstacles),
                  room(middle - Point{50, 0}, 22, obstacles)});
    if (found <= best_room) continue;
    best = end;
    best_room = found;
    if (found > clear) break;
  }
  return best;
}

}  // namespace ahead::lesson
