#pragma once

#include <cstddef>
#include <expected>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

#include "formats/input_error.h"

/// Text to JSON. Private to this room.
namespace ahead::formats {

/// Files above this size are refused.
inline constexpr std::size_t most_file_bytes = 4'000'000;

/// Levels of nesting above this are refused; our own files need eight.
inline constexpr std::size_t most_levels = 32;

/// The document in `text`, which may be any bytes. Stricter than JSON asks: a key twice in one
/// object, a number too large for a double and deep nesting are errors.
[[nodiscard]] std::expected<nlohmann::json, InputError> parse_json(std::string_view text,
                                                                   std::string_view file);

}  // namespace ahead::formats
