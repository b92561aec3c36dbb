#pragma once

#include <string>
#include <vector>

#include "coach/after/aftermath.h"
#include "coach/doubt/first_choice.h"

/// What happened, against the plan, in sentences.
namespace ahead::lesson {

struct AfterWords {
  std::string title;                ///< "Red 2 to the bottom-right: potted"
  std::vector<std::string> ends;    ///< where balls ended, one sentence each
  std::vector<std::string> strike;  ///< the strike that was probably made, and what is not known
  std::string next;                 ///< what became of the pot that was to follow
  std::string from_here;            ///< what the new plan begins with
};

[[nodiscard]] AfterWords after_words(const coach::Plan& plan, const coach::Aftermath& after);

/// "9% too hard"; "as meant" for what rounds to nothing.
[[nodiscard]] std::string slip_words(coach::Part part, double slip);

/// "3 to 17% too hard"; "2% too soft to 6% too hard" about the intention.
[[nodiscard]] std::string slip_interval_words(coach::Part part, double low, double high);

/// Empty when the first choice stands; else that it does not, and what to measure again.
[[nodiscard]] std::string doubt_words(const coach::Plan& plan, const coach::Steadiness& steadiness);

}  // namespace ahead::lesson
