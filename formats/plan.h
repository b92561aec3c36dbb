#pragma once

#include <span>
#include <string>

#include "coach/plan/plan.h"

/// A clearance plan as a file, `three-ahead.plan/1`. Its keys: formats/schema/plan.schema.json.
namespace ahead::formats {

/// `words` is empty or has one text a shot: what the lesson says about it.
[[nodiscard]] std::string write_plan(const coach::Plan& plan,
                                     std::span<const std::string> words = {});

}  // namespace ahead::formats
