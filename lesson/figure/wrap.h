#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "lesson/figure/svg.h"

namespace ahead::lesson {

/// The words in lines of at most `most_letters` each; a longer word stands alone.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view words, std::size_t most_letters);

/// Lines under each other, the first at `at`.
[[nodiscard]] std::string paragraph(Point at, double line_height,
                                    const std::vector<std::string>& lines,
                                    std::string_view css_class);

}  // namespace ahead::lesson
