#pragma once

#include <string>
#include <string_view>

#include "lesson/figure/svg.h"

namespace ahead::lesson {

/// A construction line, named in words at its end. `css_class` is `aim` or `soft`.
[[nodiscard]] std::string hairline_mark(Point from, Point to, std::string_view name,
                                        std::string_view css_class);

}  // namespace ahead::lesson
