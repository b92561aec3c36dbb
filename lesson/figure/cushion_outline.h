#pragma once

#include <vector>

#include "engine/equipment/table.h"

/// The nose line as a player sees it: one cushion after another, jaws included.
namespace ahead::lesson {

using Outline = std::vector<engine::Vec2>;

/// The rails joined end to end where they meet, arcs as short chords. Counter-clockwise round the
/// table, both the list and the points of each cushion. SI.
[[nodiscard]] std::vector<Outline> cushion_outlines(const engine::Table& table);

}  // namespace ahead::lesson
