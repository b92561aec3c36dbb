#pragma once

#include <vector>

#include "engine/contact/strike.h"
#include "engine/equipment/table.h"
#include "tests/support/dice.h"

/// Layouts and strikes that nobody would think of.
namespace ahead::test {

struct RandomShot {
  std::vector<engine::Vec2> balls;  ///< ball 0 is the cue ball
  engine::Strike strike;
};

/// `count` balls anywhere on the bed, none overlapping; now and then one is frozen to a cushion or
/// to another ball, because those are the places where contacts pile up.
[[nodiscard]] std::vector<engine::Vec2> random_layout(Dice& dice, const engine::Table& table,
                                                      int count);

/// Any strike that the cue allows: level more often than not, else raised by up to 45 degrees; the
/// cue ball leaves at about 0.2 to 6 m/s.
[[nodiscard]] engine::Strike random_strike(Dice& dice, const engine::Table& table);

/// Two to ten balls and any strike, half of the time aimed somewhere near a ball.
[[nodiscard]] RandomShot random_shot(Dice& dice, const engine::Table& table);

}  // namespace ahead::test
