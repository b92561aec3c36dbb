#pragma once

#include <optional>
#include <string_view>

namespace ahead::formats {

/// Index of the first byte that is no part of well-formed UTF-8 (RFC 3629: no overlong forms, no
/// surrogates, nothing above U+10FFFF). Nothing when all of `text` is.
[[nodiscard]] std::optional<std::size_t> first_byte_not_utf8(std::string_view text);

}  // namespace ahead::formats
