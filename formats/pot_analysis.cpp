#include "formats/pot_analysis.h"

#include <array>
#include <cstddef>
#include <string_view>

#include <nlohmann/json.hpp>

#include "formats/access.h"
#include "formats/json_print.h"
#include "formats/names.h"
#include "formats/shot_option.h"
#include "formats/units.h"
#include "formats/values.h"

namespace ahead::formats {
namespace {

using nlohmann::ordered_json;

ordered_json gates_of(const coach::PacedGates& gates) {
  ordered_json list = ordered_json::array();
  for (std::size_t i = 0; i < gates.size(); ++i) {
    ordered_json one;
    one["object_ball_speed"] = coach::gate_paces_mps[i];
    one["from_deg"] = gates[i] ? ordered_json(rounded(degrees(gates[i]->from_rad), 3)) : nullptr;
    one["to_deg"] = gates[i] ? ordered_json(rounded(degrees(gates[i]->to_rad), 3)) : nullptr;
    list.push_back(std::move(one));
  }
  return list;
}

ordered_json span_of(const coach::Span& span, double unit, int digits) {
  return ordered_json::array({rounded(span.low * unit, digits), rounded(span.high * unit, digits)});
}

}  // namespace

ordered_json json_of(const coach::LeaveFacts& leave) {
  ordered_json json;
  json["lands"] = json_of(leave.lands);
  const coach::Tolerances& tolerances = leave.tolerances;
  json["tolerance"] = {{"aim_deg", span_of(tolerances.direction_rad, degrees(1), 3)},
                       {"pace_percent", span_of(tolerances.pace, 100, 1)},
                       {"tip_height_mm", span_of(tolerances.tip_height_m, mm(1), 2)},
                       {"tip_side_mm", span_of(tolerances.tip_side_m, mm(1), 2)}};
  json["misses"] = ordered_json::array();
  for (const coach::Miss& miss : leave.misses) {
    json["misses"].push_back({{"aim_deg", rounded(degrees(miss.slip.direction_rad), 3)},
                              {"pace_percent", rounded(100 * miss.slip.pace, 1)},
                              {"potted", miss.potted},
                              {"rest", json_of(miss.rest)},
                              {"off_mm", rounded(mm(miss.off_m), 1)}});
  }
  json["line"] = nullptr;
  if (leave.line) {
    json["line"] = {{"angle_deg", rounded(degrees(leave.line->angle_rad), 1)},
                    {"next_pot", rounded(leave.line->as_meant, 4)},
                    {"next_pot_short", rounded(leave.line->short_of, 4)},
                    {"next_pot_past", rounded(leave.line->past, 4)}};
  }
  return json;
}

std::string write_pot_analysis(const coach::PotAnalysis& analysis, const coach::Layout& layout) {
  const auto id = [&](int ball) { return layout.balls[static_cast<std::size_t>(ball)].id; };
  ordered_json json;
  json["format"] = "three-ahead.pot/1";
  json["ball"] = id(analysis.ball);
  json["pocket"] = name_of(layout.table.pockets[static_cast<std::size_t>(analysis.pocket)].name);
  json["no_pot"] = analysis.no_pot ? ordered_json(name_of(*analysis.no_pot)) : nullptr;
  json["blockers"] = ordered_json::array();
  for (int ball = 0; ball < static_cast<int>(layout.balls.size()); ++ball) {
    if (coach::has(analysis.blockers, ball)) json["blockers"].push_back(id(ball));
  }
  json["gates"] = gates_of(analysis.gates);
  json["to_pocket_mm"] = rounded(mm(analysis.to_pocket_m), 1);
  json["ghost"] = json_of(analysis.ghost);
  json["tangent_deg"] = rounded(degrees(analysis.tangent_rad), 3);
  json["natural_deg"] = rounded(degrees(analysis.natural_rad), 3);
  json["face"] = json_of(analysis.face, layout);
  json["strikes"] = ordered_json::array();
  for (const coach::AnalysedStrike& strike : analysis.strikes) {
    ordered_json one = json_of(strike.option, layout);
    one["leave"] = strike.leave ? json_of(*strike.leave) : ordered_json(nullptr);
    json["strikes"].push_back(std::move(one));
  }
  json["price_of_plain"] = rounded(analysis.price_of_plain, 4);
  json["reachable"] = ordered_json::array();
  for (const coach::ReachableLeave& leave : analysis.reachable) {
    ordered_json one{{"side", rounded(leave.touch.side, 3)},
                     {"height", rounded(leave.touch.height, 3)},
                     {"cue_speed", rounded(leave.touch.cue_speed_mps, 3)},
                     {"roll", rounded(leave.roll_at_contact, 3)},
                     {"pot", rounded(leave.pot, 4)},
                     {"rest", json_of(leave.rest)}};
    one["moves"] = ordered_json::array();
    for (int ball = 0; ball < static_cast<int>(layout.balls.size()); ++ball) {
      if (coach::has(leave.touched, ball)) one["moves"].push_back(id(ball));
    }
    json["reachable"].push_back(std::move(one));
  }
  return print_json(json);
}

}  // namespace ahead::formats
