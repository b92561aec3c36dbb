#pragma once

#include <string>
#include <vector>

#include "coach/plan/plan.h"
#include "lesson/figure/contour.h"
#include "lesson/figure/labels.h"
#include "lesson/figure/view.h"

/// The position zone: from where is the next ball potted how often?
namespace ahead::lesson {

/// A line of equal chance of the next pot.
struct ZoneLine {
  double chance = 0;
  std::vector<Ring> rings;
};

/// The chances at which lines are drawn, where there are such places.
inline constexpr double zone_chances[] = {0.5, 0.75, 0.9};

/// For the pot that the plan plays after shot `index`, with the balls as that shot leaves them.
/// Requires a next shot.
[[nodiscard]] std::vector<ZoneLine> position_zone(const coach::Plan& plan, std::size_t index);

/// Each line with its chance written on it.
[[nodiscard]] std::string zone_mark(const std::vector<ZoneLine>& zone, const View& view,
                                    Labels& labels);

}  // namespace ahead::lesson
