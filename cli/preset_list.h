#pragma once

#include <span>
#include <string_view>

#include "cli/verb.h"

namespace ahead::cli {

/// Names one a line, or as JSON `{"tables": [...]}` with `what` as the key.
[[nodiscard]] Answer preset_list(std::string_view what, std::span<const std::string_view> names,
                                 bool as_json);

}  // namespace ahead::cli
