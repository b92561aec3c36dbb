#include "lesson/pictures.h"

#include <fmt/format.h>

#include "lesson/figure/strike_figure.h"
#include "lesson/figure/style.h"
#include "lesson/overview_figure.h"
#include "lesson/shot_figure.h"
#include "lesson/words/facts.h"
#include "lesson/words/names.h"

namespace ahead::lesson {

Drawing strike_drawing(const coach::Plan& plan, std::size_t index) {
  const coach::PlannedShot& shot = plan.shots[index];
  const ShotFacts facts = shot_facts(plan, index);
  Drawing drawing =
      strike_figure(shot.best.strike, plan.player, shot.before.table,
                    {shot.best.access.error_factor, shot.best.face, facts.access.lost_because});
  drawing.title = "Where to strike the cue ball, seen along the cue";
  drawing.description = capitalised(where_to_strike(facts.best.strike));
  return drawing;
}

std::vector<Picture> lesson_pictures(const coach::Plan& plan, const LessonWords& words,
                                     const Look& look, const ShotLayers& layers, Ground ground) {
  const std::string style = figure_style(look);
  std::vector<Picture> pictures;
  const auto add = [&](std::string name, const Drawing& drawing) {
    pictures.push_back({std::move(name), svg_document(drawing, style, ground)});
  };
  Drawing overview = overview_drawing(plan, look);
  overview.description = LessonWords::all_of(words.clearance);
  add("overview", overview);
  for (std::size_t i = 0; i < plan.shots.size(); ++i) {
    Drawing shot = shot_drawing(plan, i, look, layers, words.came[i]);
    shot.description = LessonWords::all_of(words.shots[i]);
    add(fmt::format("shot-{:02}", i + 1), shot);
    add(fmt::format("strike-{:02}", i + 1), strike_drawing(plan, i));
  }
  return pictures;
}

}  // namespace ahead::lesson
