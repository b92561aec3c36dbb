#pragma once

#include <vector>

#include "coach/layout.h"

/// The colours that whoever is at the table may play.
namespace ahead::coach {

/// The layout's own, or both on an open table.
[[nodiscard]] std::vector<ToPlay> colours_to_take(const Layout& layout);

}  // namespace ahead::coach
