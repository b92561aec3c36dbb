#pragma once

#include <string>

#include "coach/read/reading.h"

/// The reading of a table as a JSON document: `ahead schema reading` explains its keys.
namespace ahead::formats {

[[nodiscard]] std::string write_reading(const coach::Reading& reading);

}  // namespace ahead::formats
