#pragma once

#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "engine/geometry/vec.h"
#include "formats/input_error.h"

/// A walk through a JSON document that never trusts it. Private to this room.
///
/// A Field is a value and where it stands; a Keys is an object whose keys are asked for by name.
/// Whatever does not fit is refused: the fault travels as a Refused exception to read_document(),
/// so the readers state what they expect, one line a key, and nothing else.
namespace ahead::formats {

/// Digits after the point that count in a file's number, in the file's unit.
inline constexpr int kept_decimals = 6;

struct Refused {
  InputError error;
};

[[noreturn]] void refuse(InputError error);

/// The numbers that a field takes. `open` leaves out the least. Further digits are rounded away on
/// reading: a value that was accepted is then written with all its digits and accepted again.
struct Range {
  double least = 0;
  double most = 0;
  std::string_view unit;
  bool open = false;
  int decimals = kept_decimals;
};

/// How many items a list may have.
struct Count {
  std::size_t least = 0;
  std::size_t most = 0;
  std::string_view words;  ///< "six pockets", for the message
};

class Field {
 public:
  Field(const nlohmann::json& value, Where where) : value_(&value), where_(std::move(where)) {}

  [[nodiscard]] const Where& where() const { return where_; }
  [[nodiscard]] bool is_text() const;
  [[nodiscard]] bool is_object() const;
  [[nodiscard]] bool is_null() const;
  /// Refuses the value because `wanted` ("a number") is needed here.
  [[noreturn]] void refuse_kind(std::string_view wanted) const;

  [[nodiscard]] double number(const Range& range) const;
  [[nodiscard]] bool truth() const;
  /// A whole number from 0 to `most`.
  [[nodiscard]] std::uint64_t whole(std::uint64_t most) const;
  [[nodiscard]] std::string text(std::size_t most_bytes = 500) const;
  /// A short name of a-z, 0-9 and -: safe as a part of a file's name.
  [[nodiscard]] std::string name() const;
  /// Index of the text among `names`.
  [[nodiscard]] std::size_t choice(Names names) const;
  [[nodiscard]] std::vector<Field> items(const Count& count) const;
  /// [x, y] in mm, as metres.
  [[nodiscard]] engine::Vec2 point_m(const Range& range_mm) const;

 private:
  friend class Keys;
  friend void expect_format(const Field& document, std::string_view wanted);
  const nlohmann::json* value_;
  Where where_;
};

class Keys {
 public:
  /// Refuses `object` unless it is an object without keys other than `known`.
  Keys(const Field& object, std::initializer_list<std::string_view> known);

  [[nodiscard]] const Where& where() const { return object_.where(); }
  [[nodiscard]] Field required(std::string_view key) const;
  [[nodiscard]] std::optional<Field> optional(std::string_view key) const;
  /// `fallback` when the key is absent.
  [[nodiscard]] double number_or(std::string_view key, const Range& range, double fallback) const;

 private:
  Field object_;
  std::vector<std::string_view> known_;
};

/// Refuses an object whose `format` key is not `wanted`. Ask it first: whoever gives a strike for a
/// layout should hear that, and not which keys a layout has.
void expect_format(const Field& document, std::string_view wanted);

}  // namespace ahead::formats
