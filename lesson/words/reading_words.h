#pragma once

#include <string>
#include <vector>

#include "coach/read/reading.h"

/// The reading of a table in words: which colour and why, what can be hit, then ball by ball.
namespace ahead::lesson {

struct BallWords {
  std::string name;                    ///< "Red 3"
  std::vector<std::string> sentences;  ///< where it goes, why not elsewhere, what else there is
};

struct ReadingWords {
  std::string choice;                ///< which colour, with the estimate
  std::vector<std::string> reasons;  ///< in the trade's words
  std::vector<std::string> rules;    ///< balls on, snookers, touching balls, and how sure
  std::vector<BallWords> own;        ///< balls that may be cleared, in the choice's order
  std::vector<std::string> others;   ///< a line for each ball of the opponent
};

[[nodiscard]] BallWords ball_words(const coach::Reading& reading, const coach::BallReading& ball);

[[nodiscard]] ReadingWords reading_words(const coach::Reading& reading);

}  // namespace ahead::lesson
