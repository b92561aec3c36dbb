#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "engine/equipment/table.h"

/// The tables that the program knows by name. Sources and assumptions stand in each table's notes.
namespace ahead::engine {

/// Every preset's id, in the order in which they are listed to a person.
[[nodiscard]] std::span<const std::string_view> table_preset_ids();

/// The preset, or nothing for an unknown id.
[[nodiscard]] std::optional<Table> table_preset(std::string_view id);

}  // namespace ahead::engine
