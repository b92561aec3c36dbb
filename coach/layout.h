#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/equipment/table.h"

/// The balls on a table, who plays what, and by which rules.
namespace ahead::coach {

enum class Rules { international, world, blackball, american_8ball, snooker };

/// What a ball is. `green` to `pink` occur on a snooker table only.
enum class Colour { cue, red, yellow, green, brown, blue, pink, black, solid, stripe };

/// What the player at the table has to clear before the black. `open` leaves the choice of colour;
/// `colours` is the end of a snooker frame: yellow to black, in their order.
enum class ToPlay { red, yellow, black, open, solid, stripe, colours };

struct LayoutBall {
  std::string id;  ///< "cue", "black", "red-1", ... unique
  Colour colour{};
  engine::Vec2 at;     ///< of the centre, m
  double sigma_m = 0;  ///< one-sigma uncertainty of a captured position

  friend bool operator==(const LayoutBall&, const LayoutBall&) = default;
};

struct Layout {
  engine::Table table;
  Rules rules = Rules::international;
  ToPlay to_play = ToPlay::open;
  std::vector<LayoutBall> balls;  ///< the cue ball is first
  std::string note;               ///< where it comes from; nothing is computed from it

  friend bool operator==(const Layout&, const Layout&) = default;
};

/// Colour that an id stands for: "red-3" is red. Nothing for text that is no id.
[[nodiscard]] std::optional<Colour> colour_of_id(std::string_view id);

/// Distance in plan at which the two balls of a layout touch, m: 2 sqrt(R1 R2).
[[nodiscard]] double touching_distance_m(const Layout& layout, std::size_t first,
                                         std::size_t second);

}  // namespace ahead::coach
