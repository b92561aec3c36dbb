#pragma once

#include <vector>

#include "engine/equipment/table.h"

/// The edges of cushions and rails that a cue passes over, made once for a table.
///
/// Three stand one behind another: the nose (with the jaws, which turn into the pockets), the front
/// of the rail's top (open where a pocket is), and the table's outer edge. Curved jaws become
/// chords of at most 15 degrees, which lie at most 0.3 mm inside an arc of 40 mm radius.
namespace ahead::coach {

enum class EdgeKind { nose, rail_top };

struct Edge {
  engine::Vec2 from;
  engine::Vec2 to;
  double height_m = 0;  ///< over the bed
  EdgeKind kind{};
};

[[nodiscard]] std::vector<Edge> table_edges(const engine::Table& table);

}  // namespace ahead::coach
