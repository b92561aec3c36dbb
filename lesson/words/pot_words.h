#pragma once

#include <string>
#include <vector>

#include "coach/layout.h"
#include "coach/leaves/pot_analysis.h"
#include "coach/player/player.h"

/// The analysis of one pot in words, and with a small table of strikes for a terminal.
namespace ahead::lesson {

/// The facts of the pot, how its first strike is reached, and what the strike does for the leave: a
/// paragraph each. Requires a strike.
[[nodiscard]] std::vector<std::string> pot_sentences(const coach::PotAnalysis& analysis,
                                                     const coach::Layout& layout,
                                                     const coach::Player& player);

[[nodiscard]] std::string pot_words(const coach::PotAnalysis& analysis, const coach::Layout& layout,
                                    const coach::Player& player);

/// Why a ball cannot be potted, as a clause. `barrier` is the access that keeps the player from it,
/// if known.
[[nodiscard]] std::string why_no_pot(coach::NoPot why, coach::BallSet blockers,
                                     const coach::Access* barrier, const coach::Layout& layout);

}  // namespace ahead::lesson
