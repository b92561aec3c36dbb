#pragma once

#include <string>

#include <nlohmann/json_fwd.hpp>

/// Numbers and documents as we write them. Private to this room.
namespace ahead::formats {

/// `value` with so many decimals that reading it back and writing it again gives the same digits.
/// Requires a finite value: no file of ours ever holds anything else.
[[nodiscard]] double rounded(double value, int decimals);

/// Lists and objects that fit into a line stay on one line; others have a line an entry.
/// Keys keep their order. Ends with a new line.
[[nodiscard]] std::string print_json(const nlohmann::ordered_json& document);

}  // namespace ahead::formats
