#pragma once

#include <expected>
#include <string>
#include <string_view>

#include "coach/after/played.h"
#include "formats/input_error.h"

/// What came of a planned shot as a document, `three-ahead.after/1`. Its keys:
/// formats/schema/after.schema.json.
namespace ahead::formats {

[[nodiscard]] std::string write_after(const coach::Plan& plan, const coach::Aftermath& after);

/// What a lesson tells of it. A slip is told when a strike explains the balls, and of its parts
/// only one whose interval leaves out the intention: the one that is the most of its prior sigmas
/// out.
[[nodiscard]] std::expected<coach::PlayedShot, InputError> read_played(std::string_view text,
                                                                       std::string_view file);

}  // namespace ahead::formats
