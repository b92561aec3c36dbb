#include "formats/strike.h"

#include <nlohmann/json.hpp>

#include "formats/document.h"
#include "formats/json_print.h"
#include "formats/units.h"
#include "formats/values.h"

namespace ahead::formats {

namespace {

using nlohmann::ordered_json;

engine::Strike strike_of(const Keys& keys, const engine::Cue& cue) {
  constexpr Range turn{.least = -360, .most = 360, .unit = "degrees"};
  constexpr Range quarter{.least = 0, .most = 90, .unit = "degrees"};
  constexpr Range fraction{.least = -1, .most = 1, .unit = "of the ball's radius"};
  constexpr Range speed{.least = 0, .most = 15, .unit = "m/s", .open = true};
  const engine::Strike strike{
      .aim_rad = rad_of_deg * keys.required("aim_deg").number(turn),
      .elevation_rad = rad_of_deg * keys.required("elevation_deg").number(quarter),
      .side = keys.required("side").number(fraction),
      .height = keys.required("height").number(fraction),
      .cue_speed_mps = keys.required("cue_speed").number(speed)};
  if (engine::miscues(strike, cue)) {
    refuse(miscue(keys.where(), engine::offset(strike), cue.miscue_offset));
  }
  return strike;
}

}  // namespace

engine::Strike strike_of(const Field& field, const engine::Cue& cue) {
  expect_format(field, strike_format);
  return strike_of(
      Keys(field, {"format", "aim_deg", "elevation_deg", "side", "height", "cue_speed"}), cue);
}

engine::Strike bare_strike_of(const Field& field, const engine::Cue& cue) {
  return strike_of(Keys(field, {"aim_deg", "elevation_deg", "side", "height", "cue_speed"}), cue);
}

ordered_json json_of(const engine::Strike& strike) {
  return {{"aim_deg", rounded(degrees(strike.aim_rad), kept_decimals)},
          {"elevation_deg", rounded(degrees(strike.elevation_rad), kept_decimals)},
          {"side", rounded(strike.side, kept_decimals)},
          {"height", rounded(strike.height, kept_decimals)},
          {"cue_speed", rounded(strike.cue_speed_mps, kept_decimals)}};
}

std::expected<engine::Strike, InputError> read_strike(std::string_view text, std::string_view file,
                                                      const engine::Cue& cue) {
  return read_document<engine::Strike>(
      text, file, [&](const Field& document) { return strike_of(document, cue); });
}

ordered_json whole_json_of(const engine::Strike& strike) {
  ordered_json json = {{"format", strike_format}};
  json.update(json_of(strike));
  return json;
}

std::string write_strike(const engine::Strike& strike) { return print_json(whole_json_of(strike)); }

}  // namespace ahead::formats
