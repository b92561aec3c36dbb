#pragma once

#include <string>
#include <vector>

#include "coach/plan/plan.h"

/// The whole plan in sentences.
namespace ahead::lesson {

struct PlanWords {
  std::string title;    ///< "Clearing the reds: 8 shots"
  std::string colour;   ///< on an open table: which colour and why not the other; else empty
  std::string chance;   ///< of the whole clearance
  std::string bet;      ///< against playing safe; empty where clearing is the clear choice
  std::string order;    ///< the balls in the order of play, with their pockets
  std::string honesty;  ///< what the figures hold for
};

[[nodiscard]] PlanWords plan_words(const coach::Plan& plan);

/// Those that are not empty, title first.
[[nodiscard]] std::vector<std::string> sentences(const PlanWords& words);

}  // namespace ahead::lesson
