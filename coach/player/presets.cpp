#include <array>
#include <numbers>

#include "coach/player/player.h"

namespace ahead::coach {
namespace {

constexpr double degree_rad = std::numbers::pi / 180;
constexpr double millimetre_m = 1e-3;
constexpr std::string_view assumed = "assumption (common practice, no source)";

/// The starting values, in the units in which players' accuracy is talked about.
struct Row {
  std::string_view id;
  double direction_deg;
  std::string_view direction_source;
  double pace;
  double tip_height_mm;
  double tip_side_mm;  ///< less than in height: a sideways slip mostly cancels itself
  double elevation_deg;
  double raised;
  double stretched;
  double rest;
  double other_hand;
};

// The measure behind the directions: a straight shot on a 9 ft table, object ball half way down,
// cue ball 2 ft behind it. A forum of amateurs counts 7 in 10 as pretty good.
constexpr std::array rows{
    Row{"novice", 0.5, assumed, 0.15, 4.0, 2.0, 1.5, 1.6, 1.8, 1.7, 2.5},
    Row{"club", 0.2,
        "assumption; an amateur who pots 7 in 10 straight shots of a middling length has 0.12 to "
        "0.14 deg (players' forum)",
        0.08, 2.5, 1.2, 1.0, 1.5, 1.6, 1.5, 2.5},
    Row{"county", 0.1,
        "assumption; 7 in 10 straight shots of a middling length is 0.12 to 0.14 deg, 9 in 10 is "
        "0.07 to 0.09 deg (players' forum, derived)",
        0.05, 1.5, 0.7, 0.7, 1.35, 1.5, 1.3, 2.2},
    Row{"professional", 0.06,
        "assumption; 97 in 100 straight shots of a middling length is 0.055 to 0.07 deg (derived)",
        0.03, 0.8, 0.4, 0.5, 1.25, 1.3, 1.15, 1.8},
};

constexpr std::array<std::string_view, rows.size()> ids{rows[0].id, rows[1].id, rows[2].id,
                                                        rows[3].id};

Error error(double sigma, std::string_view source) {
  return {.sigma = sigma, .bias = 0, .source = std::string(source)};
}

Handicap handicap(double factor, std::string_view source = assumed) {
  return {.factor = factor, .source = std::string(source)};
}

Player player_of(const Row& row) {
  Player player;
  player.id = row.id;
  player.direction_rad = error(row.direction_deg * degree_rad, row.direction_source);
  player.pace = error(row.pace, assumed);
  player.tip_height_m = error(row.tip_height_mm * millimetre_m, assumed);
  player.tip_side_m = error(row.tip_side_mm * millimetre_m, assumed);
  player.elevation_rad = error(row.elevation_deg * degree_rad, assumed);
  player.raised = handicap(row.raised);
  player.stretched = handicap(row.stretched);
  player.rest = handicap(row.rest);
  player.other_hand = handicap(
      row.other_hand, "assumption; a learner's other hand starts at a beginner's level (coaches)");
  return player;
}

}  // namespace

engine::Cue cue_of(const Player& player, const engine::Cue& of_table) {
  engine::Cue cue = of_table;
  cue.tip_width_m = player.cue.tip_width_m.value_or(cue.tip_width_m);
  cue.mass_kg = player.cue.mass_kg.value_or(cue.mass_kg);
  return cue;
}

std::span<const std::string_view> player_preset_ids() { return ids; }

std::optional<Player> player_preset(std::string_view id) {
  for (const Row& row : rows) {
    if (row.id == id) return player_of(row);
  }
  return std::nullopt;
}

}  // namespace ahead::coach
