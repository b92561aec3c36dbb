#pragma once

#include <span>
#include <string>

#include "coach/layout.h"
#include "coach/player/player.h"

/// What the first shots of normal effort are worth against those that ten times the shots choose.
namespace ahead::bench {

/// Both shots of each layout are followed by the same number of clearances with the same draws.
/// One line, without its end.
[[nodiscard]] std::string normal_against_deep(std::span<const coach::Layout> layouts,
                                              const coach::Player& player);

}  // namespace ahead::bench
