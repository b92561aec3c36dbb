#pragma once

#include <string>

#include "coach/after/aftermath.h"

/// What came of a planned shot as a document, `three-ahead.after/1`. Its keys:
/// formats/schema/after.schema.json.
namespace ahead::formats {

[[nodiscard]] std::string write_after(const coach::Plan& plan, const coach::Aftermath& after);

}  // namespace ahead::formats
