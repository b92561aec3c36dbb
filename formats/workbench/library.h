#pragma once

#include <cstdint>
#include <expected>
#include <optional>
#include <string>
#include <string_view>

#include "formats/input_error.h"

/// What the library keeps, from and to the page. The keys stand in server/openapi.json.
namespace ahead::formats {

enum class LibraryKind { table, player, layout, plan, result, words };

/// What was sent to be kept, found to be sound.
struct Draft {
  LibraryKind kind{};
  std::string name;
  std::string document;  ///< as it will be kept: one line of JSON
  std::string facts;     ///< what lists show of it, the members of a JSON object
  std::optional<std::string> layout;
  std::optional<std::string> parent;
  std::optional<std::string> plan;
};

/// A layout that cannot be played yet is no fault: it is being set, and its facts say what is
/// missing.
[[nodiscard]] std::expected<Draft, InputError> read_draft(LibraryKind kind, std::string_view body);

/// A file of ours: its `format` says what it is. `name` may be empty: the file's own serves then.
[[nodiscard]] std::expected<Draft, InputError> read_import(std::string_view body,
                                                           std::string_view name);

/// An entry as it is answered; without a document when that is empty.
struct EntryParts {
  std::string_view id;
  std::int64_t revision = 0;
  std::string_view name;
  std::string_view created;
  std::string_view changed;
  std::string_view facts;
  std::string_view document;
  std::optional<std::string> layout;
  std::optional<std::string> parent;
  std::optional<std::string> plan;
};
[[nodiscard]] std::string entry_text(LibraryKind kind, const EntryParts& entry);

/// A kept document as a file: the layout of files that people read.
[[nodiscard]] std::string file_text(std::string_view document);

/// Lower-case letters, digits and dashes, 1 to 40 of them.
[[nodiscard]] bool is_id(std::string_view text);

}  // namespace ahead::formats
