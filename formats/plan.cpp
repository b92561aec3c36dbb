#include "formats/plan.h"

#include <algorithm>
#include <cassert>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <vector>

#include <nlohmann/json.hpp>

#include "formats/bet.h"
#include "formats/document.h"
#include "formats/json_print.h"
#include "formats/layout_checks.h"
#include "formats/moment.h"
#include "formats/names.h"
#include "formats/shot_option.h"
#include "formats/values.h"

// One function a value of coach/plan/plan.h, in its order: a new member is a line here, a property
// in formats/schema/plan.schema.json, and nothing else.
namespace ahead::formats {
namespace {

constexpr std::size_t most_words = 20'000;  // bytes said about one shot

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
  json["moment"] = json_of(shot.moment, shot.before);
  return json;
}

ordered_json json_of(const coach::ColourChoice& choice) {
  return {{"colour", name_of(choice.colour)}, {"clear", json_of(choice.clear)}};
}

/// The colours that may have been chosen for a layout.
std::vector<std::string_view> colours_for(const coach::Layout& layout) {
  if (layout.to_play != coach::ToPlay::open) return {name_of(layout.to_play)};
  if (layout.rules == coach::Rules::american_8ball) return {"solid", "stripe"};
  return {"red", "yellow"};
}

coach::ToPlay colour_of(const Field& field, const coach::Layout& layout) {
  const auto possible = colours_for(layout);
  const std::string_view name = possible[field.choice(possible)];
  return static_cast<coach::ToPlay>(std::ranges::find(to_play_names, name) - to_play_names.begin());
}

/// The layout before a shot: the plan's table and rules with the balls that the shot lists.
coach::Layout before_of(const Keys& shot, const coach::Plan& plan) {
  coach::Layout before = plan.layout;
  before.balls.clear();
  constexpr Count balls{.least = 2, .most = 32, .words = "2 to 32 balls"};
  for (const Field& ball : shot.required("balls_before").items(balls)) {
    before.balls.push_back(layout_ball_of(ball));
  }
  // Own balls may all have gone by then, so whatever is left counts as something to play.
  const auto is_black = [](const coach::LayoutBall& b) { return b.colour == coach::Colour::black; };
  if (before.rules != coach::Rules::snooker) {
    before.to_play =
        std::ranges::any_of(before.balls, is_black) ? coach::ToPlay::black : coach::ToPlay::open;
  }
  settle_layout(before, shot.where(), "/balls_before");
  before.to_play = coach::left_to_play(before, plan.colour);
  return before;
}

coach::PlannedShot shot_of(const Field& field, const coach::Plan& plan,
                           const engine::Playfield& playfield) {
  const Keys keys(field, {"ball",         "pocket",     "strike",       "cut_deg",  "cut_to_left",
                          "thickness",    "to_ball_mm", "to_pocket_mm", "pot",      "clear",
                          "fates",        "next_pot",   "cue_path",     "landings", "access",
                          "balls_before", "runner_up",  "why_lost",     "moment",   "words"});
  coach::PlannedShot shot{.before = before_of(keys, plan)};
  const coach::Scene scene = coach::scene_of(shot.before, plan.colour, plan.player, playfield);
  shot.best = option_of(keys, shot.before, scene);
  const Field runner_up = keys.required("runner_up");
  const Field why_lost = keys.required("why_lost");
  if (!runner_up.is_null()) {
    shot.runner_up = option_of(runner_up, shot.before, scene);
    shot.why_lost = static_cast<coach::WhyLost>(why_lost.choice(why_lost_names));
  } else if (!why_lost.is_null()) {
    why_lost.refuse_kind("null, as there is no runner-up");
  }
  if (const auto moment = keys.optional("moment")) shot.moment = moment_of(*moment, shot.before);
  if (const auto words = keys.optional("words")) static_cast<void>(words->text(most_words));
  return shot;
}

}  // namespace

coach::Plan plan_of(const Field& field) {
  expect_format(field, plan_format);
  const Keys keys(field, {"format", "layout", "player", "colour", "weighed", "complete", "effort",
                          "partial", "chance", "bet", "seed", "simulated_shots", "shots"});
  coach::Plan plan{.layout = layout_of(keys.required("layout")),
                   .player = player_of(keys.required("player"))};
  plan.colour = colour_of(keys.required("colour"), plan.layout);
  constexpr Count colours{.least = 0, .most = 7, .words = "up to 7 colours"};
  for (const Field& weighed : keys.required("weighed").items(colours)) {
    const Keys choice(weighed, {"colour", "clear"});
    plan.weighed.push_back(
        {.colour = static_cast<coach::ToPlay>(choice.required("colour").choice(to_play_names)),
         .clear = chance_of(choice.required("clear"))});
  }
  plan.complete = keys.required("complete").truth();
  if (const auto effort = keys.optional("effort")) {
    plan.effort = static_cast<coach::Effort>(effort->choice(effort_names));
  }
  if (const auto partial = keys.optional("partial")) plan.partial = partial->truth();
  plan.clear = chance_of(keys.required("chance"));
  if (const auto bet = keys.optional("bet"); bet && !bet->is_null()) {
    plan.bet = bet_of(*bet, plan.layout, coach::scene_of(plan.layout, plan.colour, plan.player));
  }
  plan.seed = keys.required("seed").whole(std::numeric_limits<std::uint64_t>::max());
  plan.simulated_shots = static_cast<long>(
      keys.required("simulated_shots").whole(std::numeric_limits<std::int64_t>::max()));
  constexpr Count shots{.least = 1, .most = 32, .words = "1 to 32 shots"};
  // One table for all shots: preparing it takes longer than all else here.
  const engine::Playfield playfield(plan.layout.table);
  for (const Field& shot : keys.required("shots").items(shots)) {
    plan.shots.push_back(shot_of(shot, plan, playfield));
  }
  return plan;
}

std::expected<coach::Plan, InputError> read_plan(std::string_view text, std::string_view file) {
  return read_document<coach::Plan>(text, file, plan_of);
}

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
  json["effort"] = effort_names[static_cast<std::size_t>(plan.effort)];
  json["partial"] = plan.partial;
  json["chance"] = json_of(plan.clear);
  json["bet"] = plan.bet ? json_of(*plan.bet, plan.layout) : ordered_json(nullptr);
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
