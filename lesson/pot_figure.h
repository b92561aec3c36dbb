#pragma once

#include <string>

#include "coach/leaves/pot_analysis.h"
#include "coach/player/player.h"
#include "lesson/figure/svg.h"
#include "lesson/house_look.h"

/// One pot looked at closely, in pictures: what `ahead shot` says, drawn.
namespace ahead::lesson {

/// The pot as the first strike plays it: the gate, the line of aim, the tangent line and the
/// natural line, every ball's way, where the cue ball will probably stop, and where it is wanted.
/// Requires a strike.
[[nodiscard]] Drawing pot_drawing(const coach::PotAnalysis& analysis, const coach::Layout& layout,
                                  const Look& look);

/// Every place that the cue ball can be left at when the pot goes as meant: a mark a strike, its
/// shape for the spin at contact, its size for the pace; and where it is wanted. Requires a strike.
[[nodiscard]] Drawing leaves_drawing(const coach::PotAnalysis& analysis,
                                     const coach::Layout& layout, const Look& look);

/// Files of their own. The first has the strike figure and the words beside the table.
[[nodiscard]] std::string pot_figure(const coach::PotAnalysis& analysis,
                                     const coach::Layout& layout, const coach::Player& player,
                                     const Look& look);
[[nodiscard]] std::string leaves_figure(const coach::PotAnalysis& analysis,
                                        const coach::Layout& layout, const Look& look);

}  // namespace ahead::lesson
