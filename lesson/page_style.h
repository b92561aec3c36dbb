#pragma once

#include <string>

#include "lesson/house_look.h"

namespace ahead::lesson {

/// The page's own style; the figures' is figure/style.h.
[[nodiscard]] std::string page_style(const Look& look);

/// Shows one shot at a time and lets the arrow keys choose.
[[nodiscard]] std::string page_script();

/// The look's colours and fonts as CSS variables, for light and dark.
[[nodiscard]] std::string colour_variables(const formats::Look& look);

}  // namespace ahead::lesson
