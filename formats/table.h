#pragma once

#include <expected>
#include <string>
#include <string_view>

#include "engine/equipment/table.h"
#include "formats/input_error.h"

/// A table as a file, `three-ahead.table/1`. Its keys: formats/schema/table.schema.json.
namespace ahead::formats {

/// A table that can be played on: six pockets in their order, a nose that suits the balls, and
/// coefficients in the ranges of real equipment. Physics keys that the file leaves out take the
/// defaults of engine/equipment/surfaces.h and ball.h.
[[nodiscard]] std::expected<engine::Table, InputError> read_table(std::string_view text,
                                                                  std::string_view file);

/// Lengths to the nanometre: rails and arcs that meet still meet when they are read back.
[[nodiscard]] std::string write_table(const engine::Table& table);

}  // namespace ahead::formats
