#pragma once

#include <vector>

#include "coach/plan/plan.h"
#include "coach/read/reading.h"
#include "lesson/told/fact.h"
#include "lesson/told/voice.h"

namespace ahead::lesson {

/// What is known of the whole clearance, for the grammar.
[[nodiscard]] Known clearance_known(const coach::Plan& plan, Units units);

/// A ball that is to be cleared and has no easy pot yet.
struct ProblemKnown {
  std::string ball;  ///< id
  Known known;
};

/// One for each problem ball among those that the plan clears, with how the plan deals with it.
/// `balls` are read of the plan's layout.
[[nodiscard]] std::vector<ProblemKnown> problems_known(const coach::Plan& plan,
                                                       std::span<const coach::BallReading> balls);

}  // namespace ahead::lesson
