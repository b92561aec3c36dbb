#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "coach/layout.h"
#include "formats/input_error.h"

/// What makes a layout playable, beyond the shape of its JSON. Private to this room.
namespace ahead::formats {

/// Refuses faulty layouts. `document` is the layout's place; `place_of_ball[i]` is where ball i
/// stood in the file's list, as the cue ball may have been moved to the front. The list is at
/// `balls` below the document.
void check_layout(const coach::Layout& layout, const Where& document,
                  const std::vector<std::size_t>& place_of_ball, std::string_view balls = "/balls");

/// Moves the cue ball to the front and refuses a faulty layout.
void settle_layout(coach::Layout& layout, const Where& document, std::string_view balls = "/balls");

}  // namespace ahead::formats
