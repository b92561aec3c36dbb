#pragma once

#include <string>

#include "coach/layout.h"
#include "coach/player/player.h"
#include "coach/pots/shot_option.h"

namespace ahead::lesson {

/// A strike in the trade's words, without a plan around it.
struct StrikeWords {
  std::string thickness;  ///< "half ball"; empty when no pot is meant
  std::string strike;     ///< where to strike
  std::string pace;       ///< "medium, 1.4 m/s"
  std::string access;     ///< how the cue gets there; empty when nothing is in the way
  std::string caution;    ///< empty unless the cue is clearly raised
};

/// `layout` is the one before the shot.
[[nodiscard]] StrikeWords strike_words(const engine::Strike& strike, const coach::Access& access,
                                       const engine::Shot& intended, const coach::Layout& layout,
                                       const coach::Player& player);

/// The same with its thickness.
[[nodiscard]] StrikeWords strike_words(const coach::ShotOption& option, const coach::Layout& layout,
                                       const coach::Player& player);

}  // namespace ahead::lesson
