#pragma once

#include <string>

#include "formats/look.h"

namespace ahead::lesson {

/// What every class of every mark looks like, for light and for a reader who prefers dark. Print is
/// always light. Written without variables, which not every reader of SVG knows.
[[nodiscard]] std::string figure_style(const formats::Look& look);

}  // namespace ahead::lesson
