#pragma once

#include <string>
#include <string_view>

namespace ahead::formats {

/// The JSON pointer (RFC 6901) of the member or item `name` of the value at `pointer`.
[[nodiscard]] inline std::string below(std::string_view pointer, std::string_view name) {
  std::string result(pointer);
  result += '/';
  for (const char c : name) {
    if (c == '~') {
      result += "~0";
    } else if (c == '/') {
      result += "~1";
    } else {
      result += c;
    }
  }
  return result;
}

}  // namespace ahead::formats
