#include "formats/shot_option.h"

#include <cstddef>

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

const std::string& id_of(const coach::Layout& layout, int ball) {
  return layout.balls[static_cast<std::size_t>(ball)].id;
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

ordered_json json_of(const coach::ShotOption& option, const coach::Layout& before) {
  ordered_json landings = ordered_json::array();
  for (const engine::Vec2 landing : option.landings) landings.push_back(json_of(landing, 1));
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
  json["landings"] = std::move(landings);
  return json;
}

}  // namespace ahead::formats
