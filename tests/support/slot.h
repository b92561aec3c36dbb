#pragma once

#include "engine/contact/strike.h"
#include "engine/equipment/presets.h"

/// The one way found to a shot that does not get on: a slot of cushions 0.01 mm wider than the cue
/// ball, which give everything back, met at the ball's middle. A fast ball is through them more
/// than two thousand times in a millisecond.
namespace ahead::test {

inline constexpr engine::Vec2 in_the_slot{0.457, 0.9};

inline engine::Table table_with_slot() {
  engine::Table table = *engine::table_preset("english-7ft");
  const double reach_m = table.nose_height_m;
  table.id = "slot";
  table.cue_ball = {.radius_m = reach_m, .mass_kg = 0.240};
  table.cushion = {.restitution = 1, .friction = 0};
  for (const double side : {-1, 1}) {
    const double x_m = in_the_slot.x + side * (reach_m + 5e-6);
    table.rails.emplace_back(engine::RailSegment{{x_m, 0.2}, {x_m, 1.6}});
  }
  return table;
}

inline engine::Strike across_the_slot() { return {.aim_rad = 0, .cue_speed_mps = 15}; }

}  // namespace ahead::test
