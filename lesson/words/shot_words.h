#pragma once

#include <string>
#include <vector>

#include "lesson/words/facts.h"

/// A planned shot in sentences, in the order in which a coach says it: ball and pocket, where to
/// strike, how hard, what the cue ball does, where it stops, why, and what goes wrong.
namespace ahead::lesson {

struct ShotWords {
  std::string pot;        ///< "Red 3 to the middle-left"
  std::string headline;   ///< "Red 3 to the middle-left, half ball"
  std::string strike;     ///< where and how hard
  std::string access;     ///< how the cue gets there; empty when nothing is in the way
  std::string cue_ball;   ///< what it does and where it stops
  std::string why;        ///< what it leaves
  std::string chance;     ///< of the pot and of the clearance from here
  std::string risk;       ///< what goes wrong, how often
  std::string runner_up;  ///< empty when there was none
  std::string caution;    ///< empty unless the cue is clearly raised
};

/// The wording varies a little with the shot's number, always the same way.
[[nodiscard]] ShotWords words_of(const ShotFacts& facts);

[[nodiscard]] ShotWords shot_words(const coach::Plan& plan, std::size_t shot);

/// Those that are not empty, headline first.
[[nodiscard]] std::vector<std::string> sentences(const ShotWords& words);

}  // namespace ahead::lesson
