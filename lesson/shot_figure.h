#pragma once

#include <optional>
#include <string>

#include "coach/after/played.h"
#include "lesson/figure/shot_layers.h"
#include "lesson/figure/svg.h"
#include "lesson/house_look.h"

/// One planned shot as a picture.
namespace ahead::lesson {

/// The table before the shot, what every ball does in the intended shot, the place of contact, and
/// where the cue ball will probably stop; and where it did, if it was played. Requires shot <
/// plan.shots.size().
[[nodiscard]] Drawing shot_drawing(const coach::Plan& plan, std::size_t shot, const Look& look,
                                   const ShotLayers& layers = {},
                                   const std::optional<coach::ShotResult>& came = std::nullopt);

/// The shot in a few thick strokes, for the strip of all shots.
[[nodiscard]] Drawing shot_frame(const coach::Plan& plan, std::size_t shot);

/// A file of its own: the table, the strike figure beside it, and the words.
[[nodiscard]] std::string shot_figure(const coach::Plan& plan, std::size_t shot, const Look& look);

/// What the ribbons and rings of a shot drawing mean.
[[nodiscard]] std::string shot_legend(const Look& look);

}  // namespace ahead::lesson
