#include "formats/workbench/json_object.h"

#include <algorithm>

#include <nlohmann/json.hpp>

namespace ahead::formats {

std::string json_string(std::string_view text) {
  // Ids and keys need no escapes, and most texts are ids and keys.
  const bool plain = std::ranges::all_of(
      text, [](unsigned char c) { return c >= ' ' && c < 0x7f && c != '"' && c != '\\'; });
  if (plain) return std::string("\"").append(text) += '"';
  return nlohmann::json(text).dump();
}

JsonObject& JsonObject::add(std::string_view key, std::string_view json) {
  if (!inside_.empty()) inside_ += ',';
  inside_ += json_string(key);
  inside_ += ':';
  inside_ += json;
  return *this;
}

JsonObject& JsonObject::add_members(std::string_view members) {
  if (!inside_.empty()) inside_ += ',';
  inside_ += members;
  return *this;
}

JsonObject& JsonObject::add_words(std::string_view key, std::string_view words) {
  return add(key, json_string(words));
}

JsonObject& JsonObject::add_number(std::string_view key, std::int64_t number) {
  return add(key, std::to_string(number));
}

JsonObject& JsonObject::add_truth(std::string_view key, bool truth) {
  return add(key, truth ? "true" : "false");
}

std::string JsonObject::text() const { return '{' + inside_ + '}'; }

JsonList& JsonList::add(std::string_view json) {
  if (!inside_.empty()) inside_ += ',';
  inside_ += json;
  return *this;
}

JsonList& JsonList::add_words(std::string_view words) { return add(json_string(words)); }

std::string JsonList::text() const { return '[' + inside_ + ']'; }

}  // namespace ahead::formats
