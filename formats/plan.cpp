#include "formats/plan.h"

#include <cassert>
#include <cstddef>

#include <nlohmann/json.hpp>

#include "formats/json_print.h"
#include "formats/names.h"
#include "formats/shot_option.h"
#include "formats/values.h"

// One function a value of coach/plan/plan.h, in its order: a new member is a line here, a property
// in formats/schema/plan.schema.json, and nothing else.
namespace ahead::formats {
namespace {

using formats::json_of;
using nlohmann::ordered_json;

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
  json["complete"] = plan.complete;
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
