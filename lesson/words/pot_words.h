#pragma once

#include <string>

#include "coach/layout.h"
#include "coach/leaves/pot_analysis.h"
#include "coach/player/player.h"

/// The analysis of one pot in words and a small table, for a terminal.
namespace ahead::lesson {

[[nodiscard]] std::string pot_words(const coach::PotAnalysis& analysis, const coach::Layout& layout,
                                    const coach::Player& player);

/// Why a ball cannot be potted. `barrier` is the access that keeps the player from it, if known.
[[nodiscard]] std::string no_pot_sentence(coach::NoPot why, coach::BallSet blockers,
                                          const coach::Access* barrier,
                                          const coach::Layout& layout);

}  // namespace ahead::lesson
