#pragma once

#include <optional>
#include <string_view>

#include "engine/equipment/table.h"

namespace ahead::capture {

/// A point of the table that a person can mark in a picture, by its name, or nothing: a pocket (the
/// middle of its fall, on the bed), "spot", or "baulk-left" and "baulk-right", where the baulk line
/// meets the cushions.
[[nodiscard]] std::optional<engine::Vec3> known_point(const engine::Table& table,
                                                      std::string_view name);

}  // namespace ahead::capture
