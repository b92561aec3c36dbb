#include "formats/player.h"

#include <algorithm>
#include <array>
#include <utility>

#include <nlohmann/json.hpp>

#include "formats/document.h"
#include "formats/json_print.h"
#include "formats/names.h"
#include "formats/units.h"
#include "formats/values.h"

namespace ahead::formats {
namespace {

using nlohmann::ordered_json;

/// An error in the file's unit: its sigma lies in 0 to `most`, its bias within `most` either way.
struct Scale {
  double most;
  std::string_view unit;
  double si_of_unit;
};

constexpr Scale direction{.most = 10, .unit = "degrees", .si_of_unit = rad_of_deg};
constexpr Scale pace{.most = 0.6, .unit = "of the speed", .si_of_unit = 1};
constexpr Scale tip{.most = 15, .unit = "mm", .si_of_unit = m_of_mm};
constexpr Scale elevation{.most = 15, .unit = "degrees", .si_of_unit = rad_of_deg};

coach::Error error_of(const Field& field, const Scale& scale) {
  const Keys keys(field, {"sigma", "bias", "source"});
  const Range sigma{.least = 0, .most = scale.most, .unit = scale.unit};
  const Range bias{.least = -scale.most, .most = scale.most, .unit = scale.unit};
  return {.sigma = scale.si_of_unit * keys.required("sigma").number(sigma),
          .bias = scale.si_of_unit * keys.number_or("bias", bias, 0),
          .source = keys.required("source").text()};
}

coach::Handicap handicap_of(const Field& field) {
  const Keys keys(field, {"factor", "source"});
  return {.factor = keys.required("factor").number({.least = 1, .most = 10}),
          .source = keys.required("source").text()};
}

/// Handicaps that older files do not have.
constexpr std::array<std::pair<std::string_view, coach::Handicap coach::Player::*>, 5>
    later_handicaps{{{"raised_bridge", &coach::Player::raised_bridge},
                     {"cushion_bridge", &coach::Player::cushion_bridge},
                     {"stretched", &coach::Player::stretched},
                     {"rest", &coach::Player::rest},
                     {"other_hand", &coach::Player::other_hand}}};

constexpr Range cue_length_mm{.least = 600, .most = 1800, .unit = "mm"};
constexpr Range butt_mm{.least = 15, .most = 45, .unit = "mm"};
constexpr Range parallel_mm{.least = 0, .most = 500, .unit = "mm"};
constexpr Range tip_mm{.least = 5, .most = 15, .unit = "mm"};
constexpr Range weight_g{.least = 200, .most = 1000, .unit = "g"};
constexpr Range hand_mm{.least = 0, .most = 250, .unit = "mm"};
constexpr Range extension_mm{.least = 0, .most = 1000, .unit = "mm"};

coach::OwnCue cue_of(const Field& field) {
  const Keys keys(field, {"length_mm", "butt_mm", "parallel_mm", "tip_mm", "weight_g"});
  coach::OwnCue cue;
  cue.length_m = m_of_mm * keys.number_or("length_mm", cue_length_mm, mm(cue.length_m));
  cue.butt_width_m = m_of_mm * keys.number_or("butt_mm", butt_mm, mm(cue.butt_width_m));
  cue.parallel_m = m_of_mm * keys.number_or("parallel_mm", parallel_mm, mm(cue.parallel_m));
  if (const auto width = keys.optional("tip_mm")) {
    cue.tip_width_m = m_of_mm * width->number(tip_mm);
  }
  if (const auto weight = keys.optional("weight_g")) {
    cue.mass_kg = weight->number(weight_g) / 1000;
  }
  return cue;
}

/// In either order.
coach::Heights heights_of(const Field& field) {
  const auto ends = field.items({.least = 2, .most = 2, .words = "two heights"});
  const auto [low, high] = std::minmax({ends[0].number(hand_mm), ends[1].number(hand_mm)});
  return {.low_m = m_of_mm * low, .high_m = m_of_mm * high};
}

bool has_rest(const std::vector<Field>& rests, std::size_t which) {
  return std::ranges::any_of(rests,
                             [&](const Field& rest) { return rest.choice(rest_names) == which; });
}

coach::Bridging bridging_of(const Field& field) {
  const Keys keys(field, {"habit", "flat_mm", "raised_mm", "rests", "extension_mm"});
  coach::Bridging bridging;
  if (const auto habit = keys.optional("habit")) {
    bridging.closed = habit->choice(bridge_habit_names) == 1;
  }
  if (const auto flat = keys.optional("flat_mm")) bridging.flat = heights_of(*flat);
  if (const auto raised = keys.optional("raised_mm")) bridging.raised = heights_of(*raised);
  if (const auto rests = keys.optional("rests")) {
    const auto list = rests->items({.least = 0, .most = 2, .words = "at most two rests"});
    bridging.rest = has_rest(list, 0);
    bridging.spider = has_rest(list, 1);
  }
  bridging.extension_m = m_of_mm * keys.number_or("extension_mm", extension_mm, 0);
  return bridging;
}

ordered_json json_of_handicap(const coach::Handicap& handicap) {
  return {{"factor", rounded(handicap.factor, kept_decimals)}, {"source", handicap.source}};
}

ordered_json json_of_mm(double metres) { return rounded(mm(metres), kept_decimals); }

ordered_json json_of_cue(const coach::OwnCue& cue) {
  ordered_json json;
  json["length_mm"] = json_of_mm(cue.length_m);
  json["butt_mm"] = json_of_mm(cue.butt_width_m);
  json["parallel_mm"] = json_of_mm(cue.parallel_m);
  if (cue.tip_width_m) json["tip_mm"] = json_of_mm(*cue.tip_width_m);
  if (cue.mass_kg) json["weight_g"] = rounded(1000 * *cue.mass_kg, kept_decimals);
  return json;
}

ordered_json json_of_bridging(const coach::Bridging& bridging) {
  const auto ends = [](const coach::Heights& heights) {
    return ordered_json::array({json_of_mm(heights.low_m), json_of_mm(heights.high_m)});
  };
  ordered_json json;
  json["habit"] = bridge_habit_names[bridging.closed ? 1 : 0];
  json["flat_mm"] = ends(bridging.flat);
  json["raised_mm"] = ends(bridging.raised);
  json["rests"] = ordered_json::array();
  if (bridging.rest) json["rests"].push_back(rest_names[0]);
  if (bridging.spider) json["rests"].push_back(rest_names[1]);
  json["extension_mm"] = json_of_mm(bridging.extension_m);
  return json;
}

ordered_json json_of_error(const coach::Error& error, const Scale& scale) {
  return {{"sigma", rounded(error.sigma / scale.si_of_unit, kept_decimals)},
          {"bias", rounded(error.bias / scale.si_of_unit, kept_decimals)},
          {"source", error.source}};
}

}  // namespace

coach::Player player_of(const Field& field) {
  expect_format(field, player_format);
  const Keys keys(field, {"format", "id", "hand", "reach_mm", "height_mm", "cue", "bridging",
                          "errors", "handicaps"});
  coach::Player player;
  player.id = keys.required("id").name();
  player.hand = static_cast<coach::Hand>(keys.required("hand").choice(hand_names));
  player.reach_m =
      m_of_mm * keys.required("reach_mm").number({.least = 100, .most = 3000, .unit = "mm"});
  player.height_m =
      m_of_mm *
      keys.number_or("height_mm", {.least = 800, .most = 2500, .unit = "mm"}, mm(player.height_m));
  if (const auto cue = keys.optional("cue")) player.cue = cue_of(*cue);
  if (const auto bridging = keys.optional("bridging")) player.bridging = bridging_of(*bridging);

  const Keys errors(keys.required("errors"),
                    {"direction_deg", "pace", "tip_height_mm", "tip_side_mm", "elevation_deg"});
  player.direction_rad = error_of(errors.required("direction_deg"), direction);
  player.pace = error_of(errors.required("pace"), pace);
  player.tip_height_m = error_of(errors.required("tip_height_mm"), tip);
  player.tip_side_m = error_of(errors.required("tip_side_mm"), tip);
  player.elevation_rad = error_of(errors.required("elevation_deg"), elevation);

  const Keys handicaps(keys.required("handicaps"), {"raised", "raised_bridge", "cushion_bridge",
                                                    "stretched", "rest", "other_hand"});
  player.raised = handicap_of(handicaps.required("raised"));
  for (const auto& [key, handicap] : later_handicaps) {
    if (const auto given = handicaps.optional(key)) player.*handicap = handicap_of(*given);
  }
  return player;
}

ordered_json json_of(const coach::Player& player) {
  ordered_json json;
  json["format"] = player_format;
  json["id"] = player.id;
  json["hand"] = name_of(player.hand);
  json["reach_mm"] = rounded(mm(player.reach_m), kept_decimals);
  json["height_mm"] = json_of_mm(player.height_m);
  json["cue"] = json_of_cue(player.cue);
  json["bridging"] = json_of_bridging(player.bridging);
  json["errors"] = {{"direction_deg", json_of_error(player.direction_rad, direction)},
                    {"pace", json_of_error(player.pace, pace)},
                    {"tip_height_mm", json_of_error(player.tip_height_m, tip)},
                    {"tip_side_mm", json_of_error(player.tip_side_m, tip)},
                    {"elevation_deg", json_of_error(player.elevation_rad, elevation)}};
  json["handicaps"]["raised"] = json_of_handicap(player.raised);
  for (const auto& [key, handicap] : later_handicaps) {
    json["handicaps"][key] = json_of_handicap(player.*handicap);
  }
  return json;
}

std::expected<coach::Player, InputError> read_player(std::string_view text, std::string_view file) {
  return read_document<coach::Player>(text, file, player_of);
}

std::string write_player(const coach::Player& player) { return print_json(json_of(player)); }

}  // namespace ahead::formats
