#include "cli/preset_list.h"

#include <fmt/format.h>

namespace ahead::cli {

Answer preset_list(std::string_view what, std::span<const std::string_view> names, bool as_json) {
  // The names are ours and need no escapes.
  if (as_json) {
    return {.out = fmt::format("{{\"{}\": [\"{}\"]}}\n", what, fmt::join(names, "\", \""))};
  }
  return {.out = fmt::format("{}\n", fmt::join(names, "\n"))};
}

}  // namespace ahead::cli
