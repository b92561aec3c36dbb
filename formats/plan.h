#pragma once

#include <expected>
#include <span>
#include <string>
#include <string_view>

#include "coach/plan/plan.h"
#include "formats/input_error.h"

/// A clearance plan as a file, `three-ahead.plan/1`. Its keys: formats/schema/plan.schema.json.
namespace ahead::formats {

/// A plan as it was written. Its words are left aside; each intended shot is played again by the
/// engine.
[[nodiscard]] std::expected<coach::Plan, InputError> read_plan(std::string_view text,
                                                               std::string_view file);

/// `words` is empty or has one text a shot: what the lesson says about it.
[[nodiscard]] std::string write_plan(const coach::Plan& plan,
                                     std::span<const std::string> words = {});

}  // namespace ahead::formats
