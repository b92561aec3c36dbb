#pragma once

#include <string>

/// A layout from an evening class, as its file: every kind of ball of the English game, one of them
/// with an uncertain place.
namespace ahead::test {

inline std::string evening_text() {
  return R"({
  "format": "three-ahead.layout/1",
  "table": "english-7ft",
  "rules": "international",
  "to_play": "red",
  "balls": [
    {"id": "cue", "at": [457.0, 420.0]},
    {"id": "red-1", "at": [200.5, 900.0]},
    {"id": "red-2", "at": [640.25, 1210.125]},
    {"id": "yellow-1", "at": [700.0, 1500.0], "sigma_mm": 2.5},
    {"id": "black", "at": [457.0, 1371.5]}
  ]
}
)";
}

inline std::string replaced(std::string text, const std::string& what, const std::string& with) {
  return text.replace(text.find(what), what.size(), with);
}

}  // namespace ahead::test
