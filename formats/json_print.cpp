#include "formats/json_print.h"

#include <cassert>
#include <cmath>
#include <cstddef>
#include <string_view>

#include <nlohmann/json.hpp>

namespace ahead::formats {
namespace {

using nlohmann::ordered_json;

constexpr std::size_t line_width = 100;
constexpr std::size_t indent_width = 2;

/// On one line, with a blank after commas and colons.
void print_flat(const ordered_json& value, std::string& out) {
  if (!value.is_structured()) {
    assert(!value.is_number_float() || std::isfinite(value.get<double>()));
    out += value.dump();
    return;
  }
  out += value.is_object() ? '{' : '[';
  std::string_view comma;
  for (const auto& [key, entry] : value.items()) {
    out += comma;
    comma = ", ";
    if (value.is_object()) out += ordered_json(key).dump() + ": ";
    print_flat(entry, out);
  }
  out += value.is_object() ? '}' : ']';
}

void print(const ordered_json& value, std::size_t indent, std::size_t column, std::string& out) {
  std::string flat;
  print_flat(value, flat);
  if (!value.is_structured() || value.empty() || column + flat.size() < line_width) {
    out += flat;
    return;
  }
  const std::string margin(indent + indent_width, ' ');
  out += value.is_object() ? '{' : '[';
  std::string_view comma = "\n";
  for (const auto& [key, entry] : value.items()) {
    out += comma;
    comma = ",\n";
    const std::string label = value.is_object() ? ordered_json(key).dump() + ": " : "";
    out += margin + label;
    print(entry, margin.size(), margin.size() + label.size(), out);
  }
  out += '\n' + std::string(indent, ' ') + (value.is_object() ? '}' : ']');
}

}  // namespace

double rounded(double value, int decimals) {
  assert(std::isfinite(value));
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale + 0.0;  // + 0.0 turns -0 into 0
}

std::string print_json(const ordered_json& document) {
  std::string out;
  print(document, 0, 0, out);
  return out + '\n';
}

}  // namespace ahead::formats
