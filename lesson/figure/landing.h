#pragma once

#include <span>
#include <string>

#include "engine/equipment/table.h"
#include "lesson/figure/contour.h"
#include "lesson/figure/view.h"

/// Where the cue ball will probably stop.
namespace ahead::lesson {

struct LandingContours {
  std::vector<Ring> half;         ///< hold about 50% of the landings
  std::vector<Ring> nine_tenths;  ///< hold about 90%
};

/// The lattice under the contours: for a picture that stays, and for one that is drawn again at
/// once (a quarter of the work; lines differ by a few millimetres).
inline constexpr double fine_lattice_m = 0.008;
inline constexpr double coarse_lattice_m = 0.016;

/// Empty when there are too few landings to say (fewer than 20).
[[nodiscard]] LandingContours landing_contours(std::span<const engine::Vec2> landings,
                                               const engine::Table& table,
                                               double spacing_m = fine_lattice_m);

[[nodiscard]] std::string landing_mark(const LandingContours& contours, const View& view);

}  // namespace ahead::lesson
