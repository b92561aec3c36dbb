#pragma once

#include "engine/equipment/table.h"
#include "formats/input_error.h"

namespace ahead::formats {

/// Refuses tables whose parts do not suit each other: the sanity rules for measured equipment.
/// `where` is the table's place in its file. Private to this room.
void check_table(const engine::Table& table, const Where& where);

}  // namespace ahead::formats
