#pragma once

#include "coach/plan/plan.h"

/// A plan to draw and to word: an evening class's table and a clearance found by taking, each time,
/// the pot that succeeds most often among a few strikes. Paths, landings, fates and chances of pots
/// are counted from simulated tries. It plans nothing ahead: the chances of clearing are products
/// of those of the pots, and that of the yellows is invented.
namespace ahead::lesson::played {

[[nodiscard]] coach::Layout evening_class_layout();

/// The same plan at every call.
[[nodiscard]] const coach::Plan& plan();

/// The first shots, at most so many, of any layout in the same way; no shots when no such strike
/// pots.
[[nodiscard]] coach::Plan plan_of(const coach::Layout& layout, int most_shots);

}  // namespace ahead::lesson::played
