#pragma once

#include "formats/look.h"

namespace ahead::lesson {

using formats::Look;

/// The look that is compiled into the program: look/look.json.
[[nodiscard]] Look house_look();

}  // namespace ahead::lesson
