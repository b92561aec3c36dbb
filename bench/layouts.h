#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "coach/layout.h"

/// The layouts of a folder.
namespace ahead::bench {

struct Named {
  std::string name;  ///< of its file, without the ending
  coach::Layout layout;
};

/// Of the files NAME.json, in the order of their names; nothing when one cannot be read, after
/// saying why.
[[nodiscard]] std::optional<std::vector<Named>> layouts_in(const std::filesystem::path& folder);

}  // namespace ahead::bench
