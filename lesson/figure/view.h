#pragma once

#include "engine/equipment/table.h"
#include "lesson/figure/svg.h"

/// From the table's metres to drawing units.
///
/// The table stands portrait with baulk at the bottom, as the player sees it from the baulk end: so
/// "top-left" in the words is top left in the picture.
namespace ahead::lesson {

struct View {
  double length_m = 0;

  [[nodiscard]] Point at(engine::Vec2 place_m) const {
    return {1000 * place_m.x, 1000 * (length_m - place_m.y)};
  }
  [[nodiscard]] Point at(engine::Vec3 place_m) const { return at(engine::plan(place_m)); }
};

[[nodiscard]] inline View view_of(const engine::Table& table) { return {table.length_m}; }

/// The picture that a table needs: playing area, pockets, and the tape on the left and below. Title
/// and body are still to be given.
[[nodiscard]] Drawing table_drawing(const engine::Table& table);

}  // namespace ahead::lesson
