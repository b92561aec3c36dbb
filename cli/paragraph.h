#pragma once

#include <string>
#include <string_view>

namespace ahead::cli {

/// Breaks a text at spaces for a terminal; every line is indented by `indent`. Ends with a new
/// line.
[[nodiscard]] std::string paragraph(std::string_view text, std::size_t indent);

}  // namespace ahead::cli
