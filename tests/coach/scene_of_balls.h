#pragma once

#include <string>
#include <utility>
#include <vector>

#include "coach/layout.h"
#include "engine/equipment/presets.h"

namespace ahead::test {

/// A layout on a 7 ft English table from ids and places in mm, the cue ball first.
inline coach::Layout layout_of(const std::vector<std::pair<std::string, engine::Vec2>>& balls_mm,
                               coach::ToPlay to_play = coach::ToPlay::red,
                               coach::Rules rules = coach::Rules::international) {
  coach::Layout layout{
      .table = *engine::table_preset("english-7ft"), .rules = rules, .to_play = to_play};
  for (const auto& [id, at] : balls_mm) {
    layout.balls.push_back({.id = id, .colour = *coach::colour_of_id(id), .at = at / 1000});
  }
  return layout;
}

}  // namespace ahead::test
