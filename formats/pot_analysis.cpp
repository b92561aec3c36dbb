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

constexpr std::array<std::string_view, 5> no_pot_names{"closed", "blocked", "cut-too-fine",
                                                       "no-access", "no-strike"};

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

}  // namespace

std::string write_pot_analysis(const coach::PotAnalysis& analysis, const coach::Layout& layout) {
  const auto id = [&](int ball) { return layout.balls[static_cast<std::size_t>(ball)].id; };
  ordered_json json;
  json["format"] = "three-ahead.pot/1";
  json["ball"] = id(analysis.ball);
  json["pocket"] = name_of(layout.table.pockets[static_cast<std::size_t>(analysis.pocket)].name);
  json["no_pot"] =
      analysis.no_pot ? ordered_json(name_of(*analysis.no_pot, no_pot_names)) : nullptr;
  json["blockers"] = ordered_json::array();
  for (int ball = 0; ball < static_cast<int>(layout.balls.size()); ++ball) {
    if (coach::has(analysis.blockers, ball)) json["blockers"].push_back(id(ball));
  }
  json["gates"] = gates_of(analysis.gates);
  json["to_pocket_mm"] = rounded(mm(analysis.to_pocket_m), 1);
  json["ghost"] = json_of(analysis.ghost);
  json["tangent_deg"] = rounded(degrees(analysis.tangent_rad), 3);
  json["face"] = json_of(analysis.face, layout);
  json["strikes"] = ordered_json::array();
  for (const coach::AnalysedStrike& strike : analysis.strikes) {
    ordered_json one = json_of(strike.option, layout);
    one["lands"] = strike.lands ? json_of(*strike.lands) : ordered_json(nullptr);
    json["strikes"].push_back(std::move(one));
  }
  return print_json(json);
}

}  // namespace ahead::formats
