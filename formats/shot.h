#pragma once

#include <string>

#include "coach/layout.h"
#include "engine/simulate/shot.h"

/// What a strike did, as a file, `three-ahead.shot/1`. Its keys: formats/schema/shot.schema.json.
namespace ahead::formats {

/// `shot` was simulated from `layout`: ball i of the one is ball i of the other.
///
/// A path starts with the strike, has a row at both ends of each stretch between events, and
/// between them at least one every 20 ms. It ends with the row in which the ball comes to rest for
/// good or leaves the bed, so a ball that is never touched has one row.
[[nodiscard]] std::string write_shot(const engine::Shot& shot, const coach::Layout& layout);

}  // namespace ahead::formats
