#pragma once

#include <cstddef>
#include <vector>

#include "coach/layout.h"
#include "formats/input_error.h"

/// What makes a layout playable, beyond the shape of its JSON. Private to this room.
namespace ahead::formats {

/// Refuses faulty layouts. `document` is the layout's place; `place_of_ball[i]` is where ball i
/// stood in the file's list, as the cue ball may have been moved to the front.
void check_layout(const coach::Layout& layout, const Where& document,
                  const std::vector<std::size_t>& place_of_ball);

}  // namespace ahead::formats
