#pragma once

#include <cstdint>
#include <string>
#include <string_view>

/// An answer put together from texts that are JSON already. Several writers of this room give whole
/// documents; an answer that holds one need not read it again.
namespace ahead::formats {

/// A JSON string.
[[nodiscard]] std::string json_string(std::string_view text);

class JsonObject {
 public:
  /// `json` is the text of any JSON value.
  JsonObject& add(std::string_view key, std::string_view json);
  JsonObject& add_words(std::string_view key, std::string_view words);
  JsonObject& add_number(std::string_view key, std::int64_t number);
  JsonObject& add_truth(std::string_view key, bool truth);
  /// `members` is the text of one or more members: "\"shots\":8".
  JsonObject& add_members(std::string_view members);

  [[nodiscard]] std::string text() const;

 private:
  std::string inside_;
};

class JsonList {
 public:
  JsonList& add(std::string_view json);
  JsonList& add_words(std::string_view words);

  [[nodiscard]] std::string text() const;

 private:
  std::string inside_;
};

}  // namespace ahead::formats
