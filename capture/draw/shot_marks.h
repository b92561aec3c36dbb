#pragma once

#include <string>
#include <vector>

#include "capture/draw/draw_back.h"
#include "coach/plan/plan.h"
#include "formats/look.h"

/// A planned shot as marks on the bed, in the house's colours.
namespace ahead::capture {

/// The paths of all balls, wide where they are fast; a ring where each is to stop, another where
/// the cue ball meets the object ball; the line of aim and the line to the pocket.
[[nodiscard]] std::vector<BedMark> shot_marks(const coach::PlannedShot& shot,
                                              const formats::Look& look);

/// They, laid over a photograph that shows this layout.
[[nodiscard]] Overlay shot_overlay(const Camera& camera, const coach::PlannedShot& shot,
                                   const coach::Layout& layout, const formats::Look& look);

/// How the cut of the shot looks from the camera, and what it is: a sentence. Empty when the cue
/// ball meets no ball.
[[nodiscard]] std::string cut_in_words(const Camera& camera, const coach::PlannedShot& shot);

}  // namespace ahead::capture
