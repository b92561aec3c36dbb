#pragma once

#include <string>
#include <string_view>

#include "lesson/figure/svg.h"

namespace ahead::lesson {

/// A construction line, named in words at its end. `css_class` is `aim` or `soft`. Where the name
/// would run out of `keep_in`, it stands under the line's end instead of beyond it.
[[nodiscard]] std::string hairline_mark(Point from, Point to, std::string_view name,
                                        std::string_view css_class, const Drawing& keep_in);

}  // namespace ahead::lesson
