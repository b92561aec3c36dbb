#include "engine/equipment/symmetry.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ahead::engine {
namespace {

constexpr double tolerance = 1e-9;  // m, rad

/// Left to right, or end to end.
struct Mirror {
  const Table& table;
  bool across = false;

  [[nodiscard]] Vec2 of(Vec2 at) const {
    return across ? Vec2{table.width_m - at.x, at.y} : Vec2{at.x, table.length_m - at.y};
  }
  [[nodiscard]] double of(double direction_rad) const {
    return across ? std::numbers::pi - direction_rad : -direction_rad;
  }
  [[nodiscard]] RailSegment of(const RailSegment& rail) const {
    return {.from = of(rail.from), .to = of(rail.to)};
  }
  [[nodiscard]] RailArc of(const RailArc& rail) const {
    return {.centre = of(rail.centre),
            .radius_m = rail.radius_m,
            .from_rad = of(rail.to_rad),
            .to_rad = of(rail.from_rad)};
  }
};

bool near(Vec2 a, Vec2 b) { return norm(a - b) < tolerance; }

bool same_direction(double a_rad, double b_rad) {
  return std::abs(std::remainder(a_rad - b_rad, 2 * std::numbers::pi)) < tolerance;
}

bool same(const RailSegment& a, const RailSegment& b) {
  return (near(a.from, b.from) && near(a.to, b.to)) || (near(a.from, b.to) && near(a.to, b.from));
}

bool same(const RailArc& a, const RailArc& b) {
  return near(a.centre, b.centre) && std::abs(a.radius_m - b.radius_m) < tolerance &&
         same_direction(a.from_rad, b.from_rad) && same_direction(a.to_rad, b.to_rad);
}

bool mirrors(const Mirror& mirror) {
  const Table& table = mirror.table;
  const bool rails = std::ranges::all_of(table.rails, [&](const Rail& rail) {
    return std::visit(
        [&]<typename Kind>(const Kind& one) {
          const Kind image = mirror.of(one);
          return std::ranges::any_of(table.rails, [&](const Rail& other) {
            const Kind* match = std::get_if<Kind>(&other);
            return match != nullptr && same(*match, image);
          });
        },
        rail);
  });
  return rails && std::ranges::all_of(table.pockets, [&](const Pocket& pocket) {
           return std::ranges::any_of(table.pockets, [&](const Pocket& other) {
             return near(other.centre, mirror.of(pocket.centre)) &&
                    std::abs(other.fall_radius_m - pocket.fall_radius_m) < tolerance;
           });
         });
}

}  // namespace

Symmetry symmetry_of(const Table& table) {
  return {.across = mirrors({.table = table, .across = true}),
          .along = table.cloth.nap == 0 && mirrors({.table = table, .across = false})};
}

}  // namespace ahead::engine
