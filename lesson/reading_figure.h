#pragma once

#include <string>

#include "coach/read/reading.h"
#include "lesson/figure/svg.h"
#include "lesson/house_look.h"

/// The reading of a table in pictures.
namespace ahead::lesson {

/// All balls with the lines that go from here; problem balls in a dotted ring, insurance balls in a
/// full one.
[[nodiscard]] Drawing reading_drawing(const coach::Reading& reading, const Look& look);

/// One ball: from where the cue ball pots it (darker: into more pockets), its gates, and what
/// blocks the others. `ball` is the index of one that was read.
[[nodiscard]] Drawing ball_map_drawing(const coach::Reading& reading, int ball, const Look& look);

/// Files of their own, with the words beside them.
[[nodiscard]] std::string reading_figure(const coach::Reading& reading, const Look& look);
[[nodiscard]] std::string ball_map_figure(const coach::Reading& reading, int ball,
                                          const Look& look);

}  // namespace ahead::lesson
