#include "formats/json_text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>
#include <utility>
#include <vector>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "formats/json_pointer.h"
#include "formats/utf8.h"

namespace ahead::formats {
namespace {

using nlohmann::json;

std::string line_and_column(std::string_view text, std::size_t index) {
  const std::string_view before = text.substr(0, index);
  const std::size_t line_start = before.rfind('\n') + 1;  // npos + 1 is 0
  const std::string_view line = before.substr(line_start);
  // Columns count letters, so continuation bytes do not.
  const auto starts_a_letter = [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  };
  return fmt::format("line {}, column {}", 1 + std::ranges::count(before, '\n'),
                     1 + std::ranges::count_if(line, starts_a_letter));
}

/// A piece of the text and where it starts.
struct Piece {
  std::size_t start = 0;
  std::string_view text;
};

/// What stands at `index`, for a message: a whole word or number, a quoted text of one line, or the
/// one character there. Between words, the word before.
Piece piece_at(std::string_view text, std::size_t index) {
  const auto is_blank = [&](std::size_t i) { return static_cast<unsigned char>(text[i]) <= ' '; };
  const auto belongs = [&](std::size_t i) {
    const auto code = static_cast<unsigned char>(text[i]);
    return std::isalnum(code) != 0 || code >= 0x80 || std::string_view("-+._").contains(text[i]);
  };
  while (index > 0 && is_blank(index)) --index;
  std::size_t start = index;
  std::size_t end = index + 1;
  if (text[index] == '"' && index > 0) {
    const std::size_t opening = text.find_last_of("\"\n", index - 1);
    if (opening != std::string_view::npos && text[opening] == '"') {
      return {.start = opening, .text = text.substr(opening + 1, index - opening - 1)};
    }
  } else if (belongs(index)) {
    while (start > 0 && belongs(start - 1)) --start;
    while (end < text.size() && belongs(end)) ++end;
  }
  return {.start = start, .text = text.substr(start, end - start)};
}

/// The words that other programs write for numbers that JSON does not have.
bool is_no_number(std::string_view word) {
  if (word.starts_with('-') || word.starts_with('+')) word.remove_prefix(1);
  constexpr std::array words{"NaN", "nan", "NAN", "Infinity", "inf", "Inf", "INF"};
  return std::ranges::find(words, word) != words.end();
}

/// Builds the document while the parser walks through the text, and stops at the first fault.
/// The public functions are what nlohmann::json::sax_parse calls.
class Builder {
 public:
  Builder(std::string_view text, std::string_view file) : text_(text), file_(file) {}

  json document;
  std::optional<InputError> fault;

  bool null() { return add(nullptr); }
  bool boolean(bool value) { return add(value); }
  bool number_integer(json::number_integer_t value) { return add(value); }
  bool number_unsigned(json::number_unsigned_t value) { return add(value); }
  bool number_float(json::number_float_t value, const std::string& /*written*/) {
    return add(value);
  }
  bool string(std::string& value) { return add(std::move(value)); }
  bool binary(json::binary_t& /*value*/) { return false; }  // occurs in no text
  bool start_object(std::size_t /*size*/) { return open(json::object()); }
  bool start_array(std::size_t /*size*/) { return open(json::array()); }
  bool end_object() { return close(); }
  bool end_array() { return close(); }

  bool key(const std::string& name) {
    if (open_.back().value->contains(name)) return refuse(duplicate_key(here(), name));
    key_ = name;
    return true;
  }

  bool parse_error(std::size_t bytes_read, const std::string& token, const json::exception& why) {
    constexpr int number_overflow = 406;
    if (why.id == number_overflow) return refuse(not_finite(next(), token));
    if (bytes_read > text_.size()) {
      return refuse(not_json({.file = file_, .place = line_and_column(text_, text_.size())}, ""));
    }
    const Piece piece = piece_at(text_, bytes_read == 0 ? 0 : bytes_read - 1);
    if (is_no_number(piece.text)) return refuse(not_finite(next(), piece.text));
    const Where where{.file = file_, .place = line_and_column(text_, piece.start)};
    return refuse(not_json(where, piece.text));
  }

 private:
  struct Container {
    json* value;
    std::string name;  ///< of this container in the one around it
  };

  bool refuse(InputError error) {
    fault = std::move(error);
    return false;
  }

  /// Place of the innermost open container.
  [[nodiscard]] Where here() const {
    Where where{.file = file_, .place = ""};
    for (std::size_t level = 1; level < open_.size(); ++level) {
      where.place = below(where.place, open_[level].name);
    }
    return where;
  }

  [[nodiscard]] std::string next_name() const {
    if (open_.empty()) return "";
    const json& parent = *open_.back().value;
    return parent.is_object() ? key_ : std::to_string(parent.size());
  }

  /// Place of the value that comes next.
  [[nodiscard]] Where next() const {
    Where where = here();
    if (!open_.empty()) where.place = below(where.place, next_name());
    return where;
  }

  json& place(json value) {
    if (open_.empty()) return document = std::move(value);
    json& parent = *open_.back().value;
    if (parent.is_object()) return parent[key_] = std::move(value);
    parent.push_back(std::move(value));
    return parent.back();
  }

  bool add(json value) {
    place(std::move(value));
    return true;
  }

  // The pointers in open_ stay good: only the innermost container grows, and what is open lies
  // around it and never inside it.
  bool open(json container) {
    if (open_.size() == most_levels) return refuse(too_deep(here(), most_levels));
    std::string name = next_name();
    json& placed = place(std::move(container));
    open_.push_back({.value = &placed, .name = std::move(name)});
    return true;
  }

  bool close() {
    open_.pop_back();
    return true;
  }

  std::string_view text_;
  std::string file_;
  std::vector<Container> open_;  ///< outermost first
  std::string key_;              ///< of the value that comes next in an object
};

}  // namespace

std::expected<json, InputError> parse_json(std::string_view text, std::string_view file) {
  if (text.size() > most_file_bytes) {
    return std::unexpected(too_large_file(file, most_file_bytes));
  }
  if (std::ranges::all_of(text, [](char c) { return std::string_view(" \t\r\n").contains(c); })) {
    return std::unexpected(empty_file(file));
  }
  if (const auto bad = first_byte_not_utf8(text)) {
    return std::unexpected(
        not_utf8({.file = std::string(file), .place = line_and_column(text, *bad)}));
  }
  Builder builder(text, file);
  json::sax_parse(text, &builder);
  if (builder.fault) return std::unexpected(std::move(*builder.fault));
  return std::move(builder.document);
}

}  // namespace ahead::formats
