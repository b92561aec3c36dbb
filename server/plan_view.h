#pragma once

#include <span>
#include <string>
#include <string_view>

#include "coach/plan/plan.h"
#include "formats/workbench/answers.h"
#include "lesson/figure/landing.h"

/// A plan with what its file leaves out because it follows from it: paths, contours and words.
namespace ahead::server {

[[nodiscard]] formats::Contours contours_of(std::span<const engine::Vec2> landings,
                                            const engine::Table& table,
                                            double spacing_m = lesson::fine_lattice_m);

/// The plan's file, with its shots in words.
[[nodiscard]] std::string plan_file_text(const coach::Plan& plan);

/// On one line, as events need it.
[[nodiscard]] std::string plan_view_text(const coach::Plan& plan);

/// JSON without line breaks and indentation. No text of a JSON document holds a bare line break.
[[nodiscard]] std::string on_one_line(std::string_view json);

}  // namespace ahead::server
