#pragma once

#include "lesson/figure/svg.h"

namespace ahead::lesson {

/// A bar of the pace words with the speed on it and one sigma of the player's own pace on each
/// side, and below it the cue, seen from the side, raised by the strike's elevation.
[[nodiscard]] Drawing pace_figure(double speed_mps, double sigma_fraction, double elevation_rad);

}  // namespace ahead::lesson
