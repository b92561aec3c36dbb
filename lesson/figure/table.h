#pragma once

#include <string>

#include "engine/equipment/table.h"
#include "lesson/figure/view.h"

namespace ahead::lesson {

/// The bed, the cushions with their true jaws, the fall of each pocket, baulk line and spot.
[[nodiscard]] std::string table_mark(const engine::Table& table, const View& view);

/// A tape measure in mm along the left and the baulk cushion.
[[nodiscard]] std::string tape_mark(const engine::Table& table, const View& view);

/// The pocket that is played for: ringed, with its name beside it.
[[nodiscard]] std::string target_pocket_mark(const engine::Table& table, int pocket,
                                             const View& view);

}  // namespace ahead::lesson
