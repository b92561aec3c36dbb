#pragma once

#include <optional>
#include <string>
#include <string_view>

/// Bytes as text. Source: RFC 4648, section 4.
namespace ahead::formats {

[[nodiscard]] std::string base64_of(std::string_view bytes);
/// Nothing for text that is not base64 with its padding.
[[nodiscard]] std::optional<std::string> bytes_of_base64(std::string_view text);

}  // namespace ahead::formats
