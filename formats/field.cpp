#include "formats/field.h"

#include <algorithm>
#include <cassert>
#include <utility>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "formats/json_pointer.h"
#include "formats/json_print.h"

namespace ahead::formats {
namespace {

std::string_view kind_of(const nlohmann::json& value) {
  if (value.is_object()) return "an object";
  if (value.is_array()) return "a list";
  if (value.is_string()) return "a text";
  if (value.is_number()) return "a number";
  if (value.is_boolean()) return "true or false";
  return "null";
}

std::string in_words(const Range& range) {
  const std::string_view blank = range.unit.empty() ? "" : " ";
  return fmt::format("{} {} to {}{}{}", range.open ? "above" : "from", range.least, range.most,
                     blank, range.unit);
}

Where inside(const Where& where, std::string_view name) {
  return {.file = where.file, .place = below(where.place, name)};
}

}  // namespace

void refuse(InputError error) { throw Refused{std::move(error)}; }

bool Field::is_text() const { return value_->is_string(); }

bool Field::is_object() const { return value_->is_object(); }

bool Field::is_null() const { return value_->is_null(); }

void Field::refuse_kind(std::string_view wanted) const {
  refuse(wrong_kind(where_, wanted, kind_of(*value_)));
}

double Field::number(const Range& range) const {
  if (!value_->is_number()) refuse_kind("a number");
  const auto number = value_->get<double>();
  const auto fits = [&](double value) {
    return (range.open ? value > range.least : value >= range.least) && value <= range.most;
  };
  // What is far out of range may be too large to be rounded.
  if (!fits(number) || !fits(rounded(number, range.decimals))) {
    refuse(out_of_range(where_, number, in_words(range)));
  }
  return rounded(number, range.decimals);
}

bool Field::truth() const {
  if (!value_->is_boolean()) refuse_kind("true or false");
  return value_->get<bool>();
}

std::uint64_t Field::whole(std::uint64_t most) const {
  if (!value_->is_number_unsigned()) refuse_kind("a whole number, 0 or more");
  const auto number = value_->get<std::uint64_t>();
  if (number > most) {
    refuse(out_of_range(where_, static_cast<double>(number), fmt::format("up to {}", most)));
  }
  return number;
}

std::string Field::text(std::size_t most_bytes) const {
  if (!value_->is_string()) refuse_kind("a text in quotes");
  auto text = value_->get<std::string>();
  if (text.size() > most_bytes) refuse(long_text(where_, most_bytes));
  return text;
}

std::string Field::name() const {
  constexpr std::size_t most_bytes = 40;
  std::string name = text();
  const auto allowed = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
  };
  if (name.empty() || name.size() > most_bytes || !std::ranges::all_of(name, allowed)) {
    refuse(bad_name(where_, name));
  }
  return name;
}

std::size_t Field::choice(Names names) const {
  const std::string chosen = text();
  const auto found = std::ranges::find(names, chosen);
  if (found == names.end()) refuse(unknown_choice(where_, chosen, names));
  return static_cast<std::size_t>(found - names.begin());
}

std::vector<Field> Field::items(const Count& count) const {
  if (!value_->is_array()) refuse_kind(fmt::format("a list of {}", count.words));
  const std::size_t size = value_->size();
  if (size < count.least || size > count.most) refuse(wrong_length(where_, size, count.words));
  std::vector<Field> items;
  items.reserve(size);
  for (const nlohmann::json& item : *value_) {
    items.emplace_back(item, inside(where_, std::to_string(items.size())));
  }
  return items;
}

engine::Vec2 Field::point_m(const Range& range_mm) const {
  const auto xy = items({.least = 2, .most = 2, .words = "two numbers, [x, y] in mm"});
  return 1e-3 * engine::Vec2{xy[0].number(range_mm), xy[1].number(range_mm)};
}

Keys::Keys(const Field& object, std::initializer_list<std::string_view> known)
    : object_(object), known_(known) {
  if (!object.is_object()) object.refuse_kind("an object in braces");
  for (const auto& [key, value] : object.value_->items()) {
    if (std::ranges::find(known_, key) == known_.end()) {
      refuse(unknown_key(object.where(), key, known_));
    }
  }
}

std::optional<Field> Keys::optional(std::string_view key) const {
  assert(std::ranges::find(known_, key) != known_.end());
  const auto found = object_.value_->find(key);
  if (found == object_.value_->end()) return std::nullopt;
  return Field(*found, inside(object_.where(), key));
}

Field Keys::required(std::string_view key) const {
  auto field = optional(key);
  if (!field) refuse(missing_key(object_.where(), key));
  return *std::move(field);
}

double Keys::number_or(std::string_view key, const Range& range, double fallback) const {
  const auto field = optional(key);
  return field ? field->number(range) : fallback;
}

void expect_format(const Field& document, std::string_view wanted) {
  if (!document.is_object()) return;  // Keys will say so
  const auto found = document.value_->find("format");
  if (found == document.value_->end()) refuse(missing_format(document.where(), wanted));
  const Field format(*found, inside(document.where(), "format"));
  const std::string text = format.text();
  if (text != wanted) refuse(wrong_format(format.where(), text, wanted));
}

}  // namespace ahead::formats
