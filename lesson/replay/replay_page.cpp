#include "lesson/replay/replay_page.h"

#include <array>
#include <utility>

#include <fmt/format.h>

#include "engine/simulate/stretch.h"
#include "lesson/embedded_replay.h"
#include "lesson/figure/ball.h"
#include "lesson/figure/shot_marks.h"
#include "lesson/figure/style.h"
#include "lesson/figure/table.h"
#include "lesson/overview_figure.h"
#include "lesson/page_style.h"
#include "lesson/pictures.h"
#include "lesson/words/names.h"

namespace ahead::lesson {
namespace {

using coach::Plan;
using coach::PlannedShot;

/// The paths of one shot as the script reads them: for each ball that moves its number, when it
/// leaves the table (or null), and t, x, y of each sample; milliseconds and drawing units.
std::string paths_of(const ShotScene& scene) {
  const engine::Shot& shot = scene.shot.best.intended;
  std::string all;
  for (std::size_t i = 0; i < scene.paths.size(); ++i) {
    if (scene.paths[i].empty()) continue;
    std::string samples;
    for (const DrawnStretch& stretch : scene.paths[i]) {
      for (const PathPoint& p : stretch.points) {
        samples += fmt::format("{}{:.0f},{},{}", samples.empty() ? "" : ",", 1000 * p.t_s,
                               number(p.at.x), number(p.at.y));
      }
    }
    std::string gone = "null";
    for (const engine::Event& event : shot.events) {
      const bool leaves =
          event.kind == engine::EventKind::pot || event.kind == engine::EventKind::off_table;
      if (leaves && event.ball == static_cast<int>(i)) {
        gone = fmt::format("{:.0f}", 1000 * event.t_s);
      }
    }
    all += fmt::format("{}[{},{},[{}]]", all.empty() ? "" : ",", i, gone, samples);
  }
  return fmt::format("{{\"ms\":{:.0f},\"balls\":[{}]}}", 1000 * shot.still_s, all);
}

/// Balls that the script can move: each drawn round its own origin.
std::string movable_balls(const ShotScene& scene, const Look& look) {
  std::string marks;
  for (std::size_t i = 0; i < scene.shot.before.balls.size(); ++i) {
    const Point at = scene.centre(i);
    marks += fmt::format("<g class=\"moves\" transform=\"translate({} {})\">\n{}</g>\n",
                         number(at.x), number(at.y),
                         ball_mark(scene.shot.before.balls[i], {0, 0}, scene.radius(i), look));
  }
  return marks;
}

std::string layer(std::string_view name, std::string_view body) {
  return group(fmt::format("layer-{}", name), body);
}

Drawing shot_stage(const Plan& plan, std::size_t index, const LessonWords& words,
                   const Look& look) {
  const PlannedShot& shot = plan.shots[index];
  const ShotScene scene = scene_of(shot);
  Drawing drawing = table_drawing(scene.table());
  drawing.title = words.heading_of(plan, index);
  drawing.description = LessonWords::all_of(words.shots[index]);
  Labels labels = labels_of(scene);
  const std::string numbers = order_numbers(plan, index, scene, drawing, labels);
  drawing.body = "<use href=\"#the-table\"/>\n" +
                 target_pocket_mark(scene.table(), shot.best.pocket, scene.view) +
                 layer("leave", landing_mark(scene.landings, scene.view)) +
                 layer("runner-up", rival_paths(scene, labels)) +
                 layer("paths", ribbons(scene, look) + rest_rings(scene) +
                                    found_mark(scene, words.came[index], labels)) +
                 layer("lines", aim_line(scene, labels) + tangent_line(scene, labels) +
                                    line_of_centres(scene, labels)) +
                 layer("lines", contact_ring(scene)) + movable_balls(scene, look) +
                 layer("numbers", numbers);
  return drawing;
}

std::string paragraphs(const std::vector<Sentence>& sentences) {
  std::string all;
  for (const Sentence& each : sentences) {
    const std::string_view topic = std::string_view(each.key).substr(each.key.find('.') + 1);
    if (topic == "title") continue;
    const std::string_view css = topic == "caution" ? " class=\"caution\"" : "";
    all += fmt::format("<p{}>{}</p>\n", css, escaped(each.text));
  }
  return all;
}

std::string controls(std::size_t index) {
  const std::size_t n = index + 1;
  return fmt::format(
      "<div class=\"play\" role=\"group\" aria-label=\"Play shot {0}\">\n"
      "<button type=\"button\" class=\"go\" disabled>Play</button>\n"
      "<label>time <input type=\"range\" class=\"time\" min=\"0\" max=\"1000\" value=\"0\" "
      "disabled></label>\n"
      "<label>at <select class=\"pace\" disabled>\n<option value=\"1\">true speed</option>\n"
      "<option value=\"0.5\">half speed</option>\n<option value=\"0.25\">quarter speed</option>\n"
      "</select></label>\n</div>\n",
      n);
}

std::string shot_section(const Plan& plan, std::size_t index, const LessonWords& words,
                         const Look& look) {
  const std::string id = fmt::format("shot-{}", index + 1);
  return fmt::format(
      "<section id=\"{0}\" aria-labelledby=\"{0}-h\">\n<div class=\"stage\">\n{2}{1}</div>\n"
      "<div class=\"told\">\n<h2 id=\"{0}-h\">{3}. {4}</h2>\n<div class=\"strike\">\n{5}</div>\n"
      "{6}</div>\n</section>\n",
      id, inline_svg(shot_stage(plan, index, words, look), "", id + "-table"), controls(index),
      index + 1, escaped(words.heading_of(plan, index)),
      inline_svg(strike_drawing(plan, index), "", id + "-strike"), paragraphs(words.shots[index]));
}

std::string layer_switches() {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 5> switches{{
      {"paths", "paths"},
      {"lines", "construction lines"},
      {"leave", "where it stops"},
      {"runner-up", "runner-up"},
      {"numbers", "numbers"},
  }};
  std::string all;
  for (const auto& [name, words] : switches) {
    const bool on = name == "paths" || name == "leave" || name == "numbers";
    all += fmt::format("<label><input type=\"checkbox\" data-layer=\"{}\"{} disabled> {}</label>\n",
                       name, on ? " checked" : "", words);
  }
  return fmt::format("<fieldset class=\"layers\">\n<legend>Show</legend>\n{}</fieldset>\n", all);
}

std::string embedded(std::string_view name) { return std::string(*embedded_replay(name)); }

}  // namespace

std::string replay_page(const Plan& plan, const LessonWords& words, const Look& look) {
  const std::string title{LessonWords::text_of(words.clearance, "title")};
  const engine::Table& table = plan.layout.table;
  const View view = view_of(table);

  std::string links = "<li><a href=\"#whole\">The whole</a></li>\n";
  std::string sections;
  std::string data;
  for (std::size_t i = 0; i < plan.shots.size(); ++i) {
    links += fmt::format("<li><a href=\"#shot-{0}\">{0}. {1}</a></li>\n", i + 1,
                         escaped(words.heading_of(plan, i)));
    sections += shot_section(plan, i, words, look);
    data += (data.empty() ? "" : ",\n") + paths_of(scene_of(plan.shots[i]));
  }
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<title>{}</title>\n<link rel=\"icon\" href=\"data:,\">\n<style>\n{}{}{}</style>\n</head>\n"
      "<body>\n<svg class=\"shared\" aria-hidden=\"true\" width=\"0\" height=\"0\"><defs>"
      "<g id=\"the-table\">\n{}</g></defs></svg>\n"
      "<header><h1>{}</h1></header>\n<nav aria-label=\"Shots\"><ol>\n{}</ol>\n{}</nav>\n"
      "<main>\n<section id=\"whole\" aria-label=\"The whole clearance\">\n<div "
      "class=\"stage\">\n{}</div>\n<div class=\"told\">\n{}</div>\n</section>\n{}</main>\n"
      "<script type=\"application/json\" id=\"paths\">[{}]</script>\n<script>\n{}</script>\n"
      "</body>\n</html>\n",
      words.voice.vocabulary == Vocabulary::us ? "en-US" : "en-GB", escaped(title),
      colour_variables(look), figure_style(look), embedded("replay_style"),
      table_mark(table, view) + tape_mark(table, view), escaped(title), links, layer_switches(),
      inline_svg(overview_drawing(plan, look), "", "whole-table"), paragraphs(words.clearance),
      sections, data, embedded("replay_script"));
}

}  // namespace ahead::lesson
