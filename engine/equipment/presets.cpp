#include "engine/equipment/presets.h"

#include <algorithm>
#include <array>
#include <numbers>

#include "engine/equipment/jaws.h"

namespace ahead::engine {
namespace {

constexpr double degrees = std::numbers::pi / 180;

constexpr std::array<std::string_view, 8> ids{"english-7ft",  "english-7ft-match", "english-6ft",
                                              "english-8ft",  "american-7ft",      "american-8ft",
                                              "american-9ft", "snooker-12ft"};

const std::array<std::string, 2> common_notes{
    "cloth, ball, cushion and cue coefficients: defaults of docs/physics.md, A2",
    "assumption: cushion.restitution 0.90 and cushion.friction 0.14 hold for this rubber",
};

Table with_outline(Table table, Outline outline) {
  table.rails = std::move(outline.rails);
  table.pockets = std::move(outline.pockets);
  table.notes.insert(table.notes.end(), std::begin(common_notes), std::end(common_notes));
  return table;
}

/// English pool: world eightball federation sizes; pockets after the UK trade standard.
Table english(std::string_view id, double width_m, double length_m) {
  constexpr double width_at_fall_m = 1.6 * 0.0508;
  Table table{.id = std::string(id),
              .width_m = width_m,
              .length_m = length_m,
              .nose_height_m = 0.03226,
              .cue_ball = {.radius_m = 0.0238, .mass_kg = 0.094},
              .object_ball = {.radius_m = 0.0254, .mass_kg = 0.116},
              .markings = {.baulk_line_m = length_m / 5, .spot = {width_m / 2, 0.75 * length_m}}};
  table.cloth.rolling = 0.014;
  table.notes = {
      "balls: 50.8 mm, 116 g objects and 47.6 mm, 94 g cue ball: federation equipment list",
      "pockets: 1.6 ball diameters wide at the fall: UK trade standard",
      "assumption: middle pockets are as wide; the standard's measuring line is not known",
      "assumption: nose height 32.26 mm, 63.5 % of the object ball as on American tables",
      "assumption: jaw radius 40 mm (corner) and 25 mm (middle); no figure is published",
      "assumption: corner fall where the projected noses cross, middle fall on the nose line",
      "assumption: the fall circle is as wide as the pocket",
      "assumption: rolling resistance 0.014 for napped cloth",
      "cloth.nap 0: napped cloth pulls up the table, but nobody has published how hard; measure it",
      "baulk line at one fifth of the length, spot at three quarters: federation rules",
  };
  return with_outline(std::move(table), rounded_outline(width_m, length_m,
                                                        {.corner_width_at_fall_m = width_at_fall_m,
                                                         .middle_width_at_fall_m = width_at_fall_m,
                                                         .corner_radius_m = 0.040,
                                                         .middle_radius_m = 0.025}));
}

Table english_7ft() {
  Table table = english("english-7ft", 0.9144, 1.8288);
  table.notes.emplace_back("playing area 6 ft x 3 ft: federation minimum, sold as 7 ft x 4 ft");
  return table;
}

Table english_7ft_match() {
  Table table = english("english-7ft-match", 0.9144, 1.8288);
  table.cue_ball = table.object_ball;
  table.notes[0] = "balls: 50.8 mm, 116 g objects: federation equipment list";
  table.notes.emplace_back(
      "assumption: the match cue ball equals the object balls, 50.8 mm, 116 g");
  return table;
}

Table english_6ft() {
  Table table = english("english-6ft", 0.762, 1.524);
  table.notes.emplace_back(
      "assumption: playing area 5 ft x 2 ft 6 in, a trade figure with 51 mm either way; measure");
  return table;
}

Table english_8ft() {
  Table table = english("english-8ft", 1.0668, 2.1336);
  table.notes.emplace_back("playing area 7 ft x 3 ft 6 in: federation maximum");
  return table;
}

/// American pool: world body's rules for mouths and cut angles.
Table american(std::string_view id, double width_m, double length_m, std::string size_note) {
  Table table{.id = std::string(id),
              .width_m = width_m,
              .length_m = length_m,
              .nose_height_m = 0.635 * 0.05715,
              .cue_ball = {.radius_m = 0.028575, .mass_kg = 0.170},
              .object_ball = {.radius_m = 0.028575, .mass_kg = 0.170},
              .markings = {.baulk_line_m = length_m / 4, .spot = {width_m / 2, 0.75 * length_m}}};
  table.cue = {.mass_kg = 0.54, .tip_radius_m = 0.0105, .tip_width_m = 0.0128};
  table.notes = {
      std::move(size_note),
      "balls 57.15 mm: world body; mass 170 g, the top of its 156 to 170 g",
      "nose height 63.5 % of the ball: middle of the world body's 62.5 to 64.5 %",
      "mouths 115.9 mm (corner) and 128.6 mm (middle): middle of the world body's ranges",
      "cut angles 142 degrees (corner) and 104 (middle): world body",
      "assumption: shelf 41.3 mm (corner) and 4.8 mm (middle), the middle of its ranges",
      "assumption: the fall circle is as wide as the pocket at the drop",
      "assumption: cue 0.54 kg with a 12.8 mm tip",
      "head string at a quarter, foot spot at three quarters of the length: from memory",
  };
  return with_outline(std::move(table), straight_outline(width_m, length_m,
                                                         {.corner_mouth_m = 0.1158875,
                                                          .middle_mouth_m = 0.1285875,
                                                          .corner_shelf_m = 0.041275,
                                                          .middle_shelf_m = 0.0047625,
                                                          .corner_closing_rad = 7 * degrees,
                                                          .middle_closing_rad = 14 * degrees}));
}

Table snooker_12ft() {
  constexpr double width_m = 1.778;
  constexpr double length_m = 3.569;
  Table table{.id = "snooker-12ft",
              .width_m = width_m,
              .length_m = length_m,
              .nose_height_m = 0.03675,
              .cue_ball = {.radius_m = 0.02625, .mass_kg = 0.141},
              .object_ball = {.radius_m = 0.02625, .mass_kg = 0.141},
              .markings = {.baulk_line_m = 0.737, .spot = {width_m / 2, length_m - 0.324}}};
  table.cloth.rolling = 0.0126;
  table.cloth.sliding = 0.212;
  table.notes = {
      "playing area 3569 x 1778 mm: official rules",
      "baulk line 737 mm, black spot 324 mm from the top: official rules",
      "balls 52.5 mm: official rules; assumption: 141 g each",
      "assumption: nose height 36.75 mm, 7/5 of the radius (from memory of a paper on cushions)",
      "assumption: pockets 85 mm (corner) and 90 mm (middle) wide; templates are not public",
      "assumption: jaw radius 80 mm (corner) and 55 mm (middle)",
      "sliding 0.212 and rolling 0.0126: Mathavan, Jackson and Parkin (2009), from memory",
      "cloth.nap 0: napped cloth pulls up the table, but nobody has published how hard; measure it",
  };
  return with_outline(std::move(table), rounded_outline(width_m, length_m,
                                                        {.corner_width_at_fall_m = 0.085,
                                                         .middle_width_at_fall_m = 0.090,
                                                         .corner_radius_m = 0.080,
                                                         .middle_radius_m = 0.055}));
}

}  // namespace

std::span<const std::string_view> table_preset_ids() { return ids; }

std::optional<Table> table_preset(std::string_view id) {
  if (id == "english-7ft") return english_7ft();
  if (id == "english-7ft-match") return english_7ft_match();
  if (id == "english-6ft") return english_6ft();
  if (id == "english-8ft") return english_8ft();
  if (id == "american-7ft") {
    return american(
        id, 0.9906, 1.9812,
        "assumption: playing area 78 x 39 in; dealers disagree, no governing body's figure");
  }
  if (id == "american-8ft") {
    return american(id, 1.1684, 2.3368, "playing area 92 x 46 in: world body");
  }
  if (id == "american-9ft") {
    return american(id, 1.270, 2.540, "playing area 100 x 50 in: world body");
  }
  if (id == "snooker-12ft") return snooker_12ft();
  return std::nullopt;
}

}  // namespace ahead::engine
