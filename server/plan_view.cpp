#include "server/plan_view.h"

#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "formats/plan.h"
#include "formats/workbench/json_object.h"
#include "lesson/words/plan_words.h"
#include "lesson/words/shot_words.h"

namespace ahead::server {
namespace {

using formats::JsonList;
using formats::JsonObject;

std::string words_text(const lesson::ShotWords& words) {
  return JsonObject()
      .add_words("pot", words.pot)
      .add_words("headline", words.headline)
      .add_words("strike", words.strike)
      .add_words("access", words.access)
      .add_words("cue_ball", words.cue_ball)
      .add_words("why", words.why)
      .add_words("chance", words.chance)
      .add_words("risk", words.risk)
      .add_words("runner_up", words.runner_up)
      .add_words("caution", words.caution)
      .text();
}

JsonObject& add_paths(JsonObject& json, const coach::ShotOption& option,
                      const coach::Layout& before) {
  return json.add("moves", formats::moves_text(option.intended, before))
      .add("contours", formats::contours_text(contours_of(option.landings, before.table)));
}

std::string shot_text(const coach::Plan& plan, std::size_t index) {
  const coach::PlannedShot& shot = plan.shots[index];
  JsonObject json;
  json.add("before", formats::layout_text(shot.before))
      .add("words", words_text(lesson::shot_words(plan, index)))
      .add("face", formats::face_text(shot.best.face, shot.before));
  add_paths(json, shot.best, shot.before);
  if (shot.runner_up) {
    JsonObject rival;
    json.add("runner_up", add_paths(rival, *shot.runner_up, shot.before).text());
  } else {
    json.add("runner_up", "null");
  }
  return json.text();
}

}  // namespace

formats::Contours contours_of(std::span<const engine::Vec2> landings, const engine::Table& table,
                              double spacing_m) {
  lesson::LandingContours found = lesson::landing_contours(landings, table, spacing_m);
  return {.half = std::move(found.half), .most = std::move(found.nine_tenths)};
}

std::string plan_file_text(const coach::Plan& plan) {
  std::vector<std::string> words;
  for (std::size_t i = 0; i < plan.shots.size(); ++i) {
    words.push_back(
        fmt::format("{}", fmt::join(lesson::sentences(lesson::shot_words(plan, i)), " ")));
  }
  return formats::write_plan(plan, words);
}

std::string plan_view_text(const coach::Plan& plan) {
  const lesson::PlanWords words = lesson::plan_words(plan);
  JsonList shots;
  for (std::size_t i = 0; i < plan.shots.size(); ++i) shots.add(shot_text(plan, i));
  return JsonObject()
      .add("plan", on_one_line(plan_file_text(plan)))
      .add_words("title", words.title)
      .add_words("colour", words.colour)
      .add_words("chance", words.chance)
      .add_words("bet", words.bet)
      .add_words("order", words.order)
      .add_words("honesty", words.honesty)
      .add("shots", shots.text())
      .text();
}

std::string on_one_line(std::string_view json) {
  std::string line;
  line.reserve(json.size());
  bool indentation = false;
  for (const char c : json) {
    if (c == '\n') indentation = true;
    if (c != '\n' && c != ' ') indentation = false;
    if (!indentation) line += c;
  }
  return line;
}

}  // namespace ahead::server
