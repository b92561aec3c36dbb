#include "formats/shot_option.h"

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "formats/access.h"
#include "formats/json_print.h"
#include "formats/names.h"
#include "formats/units.h"
#include "formats/values.h"

namespace ahead::formats {
namespace {

using formats::json_of;
using nlohmann::ordered_json;

ordered_json fraction(double value) { return rounded(value, 4); }

}  // namespace

ordered_json json_of(const coach::Chance& chance) {
  return {{"value", fraction(chance.value)},
          {"low", fraction(chance.low)},
          {"high", fraction(chance.high)},
          {"trials", chance.trials}};
}

namespace {

ordered_json json_of(const coach::Fates& fates) {
  return {{"good", fraction(fates.good)},
          {"missed_thick", fraction(fates.missed_thick)},
          {"missed_thin", fraction(fates.missed_thin)},
          {"in_off", fraction(fates.in_off)},
          {"wrong_first", fraction(fates.wrong_first)},
          {"black_early", fraction(fates.black_early)},
          {"miscue", fraction(fates.miscue)}};
}

ordered_json json_of(const coach::CueBallPath& path, const coach::Layout& layout) {
  ordered_json meets = ordered_json::array();
  for (const int ball : path.meets) meets.push_back(id_of(layout, ball));
  ordered_json json;
  json["speed_at_contact"] = rounded(path.speed_at_contact_mps, 4);
  json["roll_at_contact"] = rounded(path.roll_at_contact, 4);
  json["side_at_contact"] = rounded(path.side_at_contact, 4);
  json["cushions_before"] = path.cushions_before;
  json["cushions_after"] = path.cushions_after;
  json["running_side"] = path.running_side;
  json["check_side"] = path.check_side;
  json["travel_after_mm"] = rounded(mm(path.travel_after_m), 1);
  json["rest"] = json_of(path.rest);
  json["meets"] = std::move(meets);
  return json;
}

}  // namespace

ordered_json json_but_landings(const coach::ShotOption& option, const coach::Layout& before) {
  ordered_json json;
  json["ball"] = id_of(before, option.ball);
  json["pocket"] = name_of(before.table.pockets[static_cast<std::size_t>(option.pocket)].name);
  json["strike"] = json_of(option.strike);
  json["access"] = json_of(option.access, before);
  json["cut_deg"] = rounded(degrees(option.cut_rad), 3);
  json["cut_to_left"] = option.cut_to_left;
  json["thickness"] = fraction(option.thickness);
  json["to_ball_mm"] = rounded(mm(option.to_ball_m), 1);
  json["to_pocket_mm"] = rounded(mm(option.to_pocket_m), 1);
  json["pot"] = json_of(option.pot);
  json["clear"] = json_of(option.clear);
  json["fates"] = json_of(option.fates);
  json["next_pot"] = fraction(option.next_pot);
  json["cue_path"] = json_of(option.cue_path, before);
  return json;
}

ordered_json json_of(const coach::ShotOption& option, const coach::Layout& before) {
  ordered_json landings = ordered_json::array();
  for (const engine::Vec2 landing : option.landings) landings.push_back(json_of(landing, 1));
  ordered_json json = json_but_landings(option, before);
  json["landings"] = std::move(landings);
  return json;
}

namespace {

constexpr Range share{.least = 0, .most = 1, .decimals = 4};
constexpr Range metres_mm{.least = 0, .most = 1e6, .unit = "mm", .decimals = 1};
constexpr Range anywhere_mm{.least = -1e6, .most = 1e6, .unit = "mm", .decimals = 3};
constexpr Count any_number{.least = 0, .most = 100'000, .words = "up to 100000 places"};
constexpr std::uint64_t most_trials = 1'000'000'000;

coach::Fates fates_of(const Field& field) {
  const Keys keys(field, {"good", "missed_thick", "missed_thin", "in_off", "wrong_first",
                          "black_early", "miscue"});
  const auto part = [&](std::string_view key) { return keys.required(key).number(share); };
  return {.good = part("good"),
          .missed_thick = part("missed_thick"),
          .missed_thin = part("missed_thin"),
          .in_off = part("in_off"),
          .wrong_first = part("wrong_first"),
          .black_early = part("black_early"),
          .miscue = part("miscue")};
}

coach::CueBallPath path_of(const Field& field, const coach::Layout& layout) {
  const Keys keys(
      field, {"speed_at_contact", "roll_at_contact", "side_at_contact", "cushions_before",
              "cushions_after", "running_side", "check_side", "travel_after_mm", "rest", "meets"});
  constexpr Range speed{.least = 0, .most = 100, .unit = "m/s", .decimals = 4};
  constexpr Range ratio{.least = -1e9, .most = 1e9, .decimals = 4};
  constexpr std::uint64_t most_cushions = 1000;
  const auto cushions = [&](std::string_view key) {
    return static_cast<int>(keys.required(key).whole(most_cushions));
  };
  coach::CueBallPath path{
      .speed_at_contact_mps = keys.required("speed_at_contact").number(speed),
      .roll_at_contact = keys.required("roll_at_contact").number(ratio),
      .side_at_contact = keys.required("side_at_contact").number(ratio),
      .cushions_before = cushions("cushions_before"),
      .cushions_after = cushions("cushions_after"),
      .running_side = keys.required("running_side").truth(),
      .check_side = keys.required("check_side").truth(),
      .travel_after_m = m_of_mm * keys.required("travel_after_mm").number(metres_mm),
      .rest = keys.required("rest").point_m(anywhere_mm)};
  for (const Field& ball : keys.required("meets").items(any_number)) {
    path.meets.push_back(ball_among(ball, layout));
  }
  return path;
}

}  // namespace

int pocket_among(const Field& field, const engine::Table& table) {
  std::vector<std::string_view> names;
  for (const engine::Pocket& pocket : table.pockets) names.push_back(name_of(pocket.name));
  return static_cast<int>(field.choice(names));
}

const std::string& id_of(const coach::Layout& layout, int ball) {
  return layout.balls[static_cast<std::size_t>(ball)].id;
}

int ball_among(const Field& field, const coach::Layout& layout) {
  std::vector<std::string_view> ids;
  for (const coach::LayoutBall& ball : layout.balls) {
    if (ball.colour != coach::Colour::cue) ids.push_back(ball.id);
  }
  return static_cast<int>(field.choice(ids)) + 1;
}

coach::Chance chance_of(const Field& field) {
  const Keys keys(field, {"value", "low", "high", "trials"});
  return {.value = keys.required("value").number(share),
          .low = keys.required("low").number(share),
          .high = keys.required("high").number(share),
          .trials = static_cast<int>(keys.required("trials").whole(most_trials))};
}

coach::ShotOption option_of(const Field& field, const coach::Layout& before,
                            const coach::Scene& scene) {
  return option_of(Keys(field, {"ball", "pocket", "strike", "cut_deg", "cut_to_left", "thickness",
                                "to_ball_mm", "to_pocket_mm", "pot", "clear", "fates", "next_pot",
                                "cue_path", "landings", "access"}),
                   before, scene);
}

coach::ShotOption option_of(const Keys& keys, const coach::Layout& before,
                            const coach::Scene& scene) {
  constexpr Range cut{.least = 0, .most = 90, .unit = "degrees", .decimals = 3};
  constexpr Range landing_mm{.least = -1e6, .most = 1e6, .unit = "mm", .decimals = 1};
  coach::ShotOption option{.ball = ball_among(keys.required("ball"), before),
                           .pocket = pocket_among(keys.required("pocket"), before.table),
                           .strike = bare_strike_of(keys.required("strike"), before.table.cue),
                           .cut_rad = rad_of_deg * keys.required("cut_deg").number(cut),
                           .cut_to_left = keys.required("cut_to_left").truth(),
                           .thickness = keys.required("thickness").number(share),
                           .to_ball_m = m_of_mm * keys.required("to_ball_mm").number(metres_mm),
                           .to_pocket_m = m_of_mm * keys.required("to_pocket_mm").number(metres_mm),
                           .pot = chance_of(keys.required("pot")),
                           .clear = chance_of(keys.required("clear")),
                           .fates = fates_of(keys.required("fates")),
                           .next_pot = keys.required("next_pot").number(share),
                           .cue_path = path_of(keys.required("cue_path"), before)};
  for (const Field& landing : keys.required("landings").items(any_number)) {
    option.landings.push_back(landing.point_m(landing_mm));
  }
  const Field access = keys.required("access");
  if (!access.is_object()) access.refuse_kind("an object in braces");
  const coach::Position position = coach::position_of(before);
  option.intended = coach::play(scene.field, position, option.strike).shot;
  option.indirect = coach::indirect_of(option, before.table, position.at);
  option.access = coach::access(scene, position, option.strike);
  option.face = coach::face_of(scene, position, option.strike.aim_rad);
  return option;
}

}  // namespace ahead::formats
