#include "formats/plan.h"

#include <cassert>
#include <cstddef>

#include <nlohmann/json.hpp>

#include "formats/json_print.h"
#include "formats/names.h"
#include "formats/units.h"
#include "formats/values.h"

// One function a value of coach/plan/plan.h, in its order: a new member is a line here, a property
// in formats/schema/plan.schema.json, and nothing else.
namespace ahead::formats {
namespace {

using coach::ShotOption;
using formats::json_of;
using nlohmann::ordered_json;

ordered_json fraction(double value) { return rounded(value, 4); }

ordered_json json_of(const coach::Chance& chance) {
  return {{"value", fraction(chance.value)},
          {"low", fraction(chance.low)},
          {"high", fraction(chance.high)},
          {"trials", chance.trials}};
}

ordered_json json_of(const coach::Fates& fates) {
  return {{"good", fraction(fates.good)},
          {"missed_thick", fraction(fates.missed_thick)},
          {"missed_thin", fraction(fates.missed_thin)},
          {"in_off", fraction(fates.in_off)},
          {"wrong_first", fraction(fates.wrong_first)},
          {"black_early", fraction(fates.black_early)}};
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

ordered_json json_of(const ShotOption& option, const coach::Layout& before) {
  ordered_json landings = ordered_json::array();
  for (const engine::Vec2 landing : option.landings) landings.push_back(json_of(landing, 1));
  ordered_json json;
  json["ball"] = id_of(before, option.ball);
  json["pocket"] = name_of(before.table.pockets[static_cast<std::size_t>(option.pocket)].name);
  json["strike"] = json_of(option.strike);
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

ordered_json json_of(const coach::PlannedShot& shot) {
  ordered_json json = json_of(shot.best, shot.before);
  json["balls_before"] = ordered_json::array();
  for (const coach::LayoutBall& ball : shot.before.balls) {
    json["balls_before"].push_back(json_of(ball));
  }
  json["runner_up"] =
      shot.runner_up ? json_of(*shot.runner_up, shot.before) : ordered_json(nullptr);
  json["why_lost"] = shot.runner_up ? ordered_json(name_of(shot.why_lost)) : ordered_json(nullptr);
  return json;
}

ordered_json json_of(const coach::ColourChoice& choice) {
  return {{"colour", name_of(choice.colour)}, {"clear", json_of(choice.clear)}};
}

}  // namespace

std::string write_plan(const coach::Plan& plan, std::span<const std::string> words) {
  assert(words.empty() || words.size() == plan.shots.size());
  ordered_json json;
  json["format"] = plan_format;
  json["layout"] = json_of(plan.layout);
  json["player"] = json_of(plan.player);
  json["colour"] = name_of(plan.colour);
  json["weighed"] = ordered_json::array();
  for (const coach::ColourChoice& choice : plan.weighed) json["weighed"].push_back(json_of(choice));
  json["chance"] = json_of(plan.clear);
  json["seed"] = plan.seed;
  json["simulated_shots"] = plan.simulated_shots;
  json["shots"] = ordered_json::array();
  for (std::size_t i = 0; i < plan.shots.size(); ++i) {
    ordered_json shot = json_of(plan.shots[i]);
    if (!words.empty()) shot["words"] = words[i];
    json["shots"].push_back(std::move(shot));
  }
  return print_json(json);
}

}  // namespace ahead::formats
