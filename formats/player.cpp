#include "formats/player.h"

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

coach::Player player_of(const Field& field) {
  expect_format(field, player_format);
  const Keys keys(field, {"format", "id", "hand", "reach_mm", "errors", "handicaps"});
  coach::Player player;
  player.id = keys.required("id").name();
  player.hand = static_cast<coach::Hand>(keys.required("hand").choice(hand_names));
  player.reach_m =
      m_of_mm * keys.required("reach_mm").number({.least = 100, .most = 3000, .unit = "mm"});

  const Keys errors(keys.required("errors"),
                    {"direction_deg", "pace", "tip_height_mm", "tip_side_mm", "elevation_deg"});
  player.direction_rad = error_of(errors.required("direction_deg"), direction);
  player.pace = error_of(errors.required("pace"), pace);
  player.tip_height_m = error_of(errors.required("tip_height_mm"), tip);
  player.tip_side_m = error_of(errors.required("tip_side_mm"), tip);
  player.elevation_rad = error_of(errors.required("elevation_deg"), elevation);

  const Keys handicaps(keys.required("handicaps"), {"raised"});
  player.raised = handicap_of(handicaps.required("raised"));
  return player;
}

ordered_json json_of_error(const coach::Error& error, const Scale& scale) {
  return {{"sigma", rounded(error.sigma / scale.si_of_unit, kept_decimals)},
          {"bias", rounded(error.bias / scale.si_of_unit, kept_decimals)},
          {"source", error.source}};
}

}  // namespace

ordered_json json_of(const coach::Player& player) {
  ordered_json json;
  json["format"] = player_format;
  json["id"] = player.id;
  json["hand"] = name_of(player.hand);
  json["reach_mm"] = rounded(mm(player.reach_m), kept_decimals);
  json["errors"] = {{"direction_deg", json_of_error(player.direction_rad, direction)},
                    {"pace", json_of_error(player.pace, pace)},
                    {"tip_height_mm", json_of_error(player.tip_height_m, tip)},
                    {"tip_side_mm", json_of_error(player.tip_side_m, tip)},
                    {"elevation_deg", json_of_error(player.elevation_rad, elevation)}};
  json["handicaps"]["raised"] = {{"factor", rounded(player.raised.factor, kept_decimals)},
                                 {"source", player.raised.source}};
  return json;
}

std::expected<coach::Player, InputError> read_player(std::string_view text, std::string_view file) {
  return read_document<coach::Player>(text, file, player_of);
}

std::string write_player(const coach::Player& player) { return print_json(json_of(player)); }

}  // namespace ahead::formats
