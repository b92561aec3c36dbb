#pragma once

#include <optional>
#include <span>
#include <string_view>

/// The JSON Schemas (draft-07) of our files. They stand in formats/schema and are compiled in.
namespace ahead::formats {

/// after, capture, footage, layout, lesson (its manifest), plan, player, reading, shot, strike,
/// table, trace, trial, words (of a lesson).
[[nodiscard]] std::span<const std::string_view> schema_names();

/// The schema's text, or nothing for an unknown name.
[[nodiscard]] std::optional<std::string_view> schema_text(std::string_view name);

}  // namespace ahead::formats
