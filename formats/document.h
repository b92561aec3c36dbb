#pragma once

#include <concepts>
#include <expected>
#include <string_view>

#include <nlohmann/json.hpp>

#include "formats/field.h"
#include "formats/json_text.h"

namespace ahead::formats {

/// Parses `text` and hands its root to `read`, which may refuse. Private to this room.
template <class Value, std::invocable<const Field&> Read>
std::expected<Value, InputError> read_document(std::string_view text, std::string_view file,
                                               const Read& read) {
  const auto document = parse_json(text, file);
  if (!document) return std::unexpected(document.error());
  try {
    return read(Field(*document, {.file = std::string(file), .place = ""}));
  } catch (Refused& refused) {
    return std::unexpected(std::move(refused.error));
  }
}

}  // namespace ahead::formats
