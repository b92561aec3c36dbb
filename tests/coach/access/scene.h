#pragma once

#include <numbers>
#include <string>
#include <vector>

#include "coach/access/access.h"
#include "tests/coach/scene_of_balls.h"

namespace ahead::test {

inline constexpr double degrees = std::numbers::pi / 180;

/// A 7 ft table with balls at places in mm (the cue ball first) and a club player, to be changed.
struct Reached {
  coach::Layout layout;
  coach::Scene scene;
  coach::Position position;

  [[nodiscard]] coach::Access at(double aim_deg, double height = 0, double side = 0) const {
    return coach::access(
        scene, position,
        {.aim_rad = aim_deg * degrees, .side = side, .height = height, .cue_speed_mps = 1});
  }
};

inline coach::Player club() { return coach::player_preset("club").value(); }

inline coach::Player left_hander() {
  coach::Player player = club();
  player.hand = coach::Hand::left;
  return player;
}

inline Reached reached(const std::vector<engine::Vec2>& places_mm,
                       const coach::Player& player = club()) {
  std::vector<std::pair<std::string, engine::Vec2>> balls{{"cue", places_mm.front()}};
  for (std::size_t i = 1; i < places_mm.size(); ++i) {
    balls.emplace_back("red-" + std::to_string(i), places_mm[i]);
  }
  const coach::Layout layout = layout_of(balls);
  return {layout, coach::scene_of(layout, coach::ToPlay::red, player), coach::position_of(layout)};
}

}  // namespace ahead::test
