#include "lesson/shot_figure.h"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "lesson/figure/ball.h"
#include "lesson/figure/pace_figure.h"
#include "lesson/figure/shot_marks.h"
#include "lesson/figure/strike_figure.h"
#include "lesson/figure/style.h"
#include "lesson/figure/table.h"
#include "lesson/figure/wrap.h"
#include "lesson/figure/zone.h"
#include "lesson/words/shot_words.h"

namespace ahead::lesson {
namespace {

using coach::LayoutBall;
using coach::PlannedShot;

std::string alternative(const ShotWords& words) {
  std::string all;
  for (const std::string& each : {words.strike, words.access, words.cue_ball, words.why}) {
    if (!all.empty() && !each.empty()) all += ' ';
    all += each;
  }
  return all;
}

}  // namespace

Drawing shot_drawing(const coach::Plan& plan, std::size_t index, const Look& look,
                     const ShotLayers& layers, const std::optional<coach::ShotResult>& came) {
  const PlannedShot& shot = plan.shots[index];
  const ShotScene scene = scene_of(shot);
  const ShotWords words = shot_words(plan, index);
  Drawing drawing = table_drawing(scene.table());
  drawing.title = words.headline;
  drawing.description = alternative(words);
  drawing.body = table_mark(scene.table(), scene.view) + tape_mark(scene.table(), scene.view) +
                 target_pocket_mark(scene.table(), shot.best.pocket, scene.view);
  // Numbers belong beside their balls; the other names take what room is left.
  Labels labels = labels_of(scene);
  const std::string numbers =
      layers.numbers ? order_numbers(plan, index, scene, drawing, labels) : std::string{};
  if (layers.zone && index + 1 < plan.shots.size()) {
    drawing.body += zone_mark(position_zone(plan, index), scene.view, labels);
  }
  if (layers.contours) drawing.body += landing_mark(scene.landings, scene.view);
  if (layers.rivals) drawing.body += rival_paths(scene, labels);
  drawing.body += ribbons(scene, look);
  if (layers.construction) {
    drawing.body += line_of_centres(scene, labels) + tangent_line(scene, labels);
  }
  if (layers.aim) drawing.body += aim_line(scene, labels);
  drawing.body += contact_ring(scene) + rest_rings(scene) + found_mark(scene, came, labels) +
                  balls(scene, look) + numbers;
  return drawing;
}

Drawing shot_frame(const coach::Plan& plan, std::size_t index) {
  const PlannedShot& shot = plan.shots[index];
  const ShotScene scene = scene_of(shot);
  Drawing drawing = table_drawing(scene.table());
  drawing.left = drawing.top = -50;
  drawing.width = 1000 * scene.table().width_m + 100;
  drawing.height = 1000 * scene.table().length_m + 100;
  drawing.title = shot_words(plan, index).headline;
  drawing.body = rectangle({0, 0}, drawing.width - 100, drawing.height - 100, "bed frame-edge");
  for (const std::size_t i : {static_cast<std::size_t>(shot.best.ball), std::size_t{0}}) {
    std::vector<Point> points;
    for (const DrawnStretch& stretch : scene.paths[i]) {
      for (const PathPoint& p : stretch.points) points.push_back(p.at);
    }
    drawing.body += path(open_outline(points),
                         fmt::format("frame-path {}", colour_class(shot.before.balls[i].colour)));
  }
  for (std::size_t i = 0; i < shot.before.balls.size(); ++i) {
    const LayoutBall& plain = shot.before.balls[i];
    drawing.body += group(fmt::format("ball {}", colour_class(plain.colour)),
                          circle(scene.centre(i), 42, "face"));
  }
  return drawing;
}

std::string shot_legend(const Look& look) {
  return fmt::format(
      "Ribbons are paths: wider is faster, a tick every {:g} s; hollow slides, filled rolls, dots "
      "fly. The cue ball stops inside the full ring about 5 times in 10, inside the dotted one "
      "about 9 in 10, when the pot succeeds.",
      look.ribbon.tick_every_s);
}

std::string shot_figure(const coach::Plan& plan, std::size_t index, const Look& look) {
  const PlannedShot& shot = plan.shots[index];
  const ShotFacts facts = shot_facts(plan, index);
  const ShotWords words = words_of(facts);
  Drawing drawing = shot_drawing(plan, index, look);

  constexpr double panel = 900;
  constexpr double zoom = 2;
  const double x = drawing.left + drawing.width + 40;
  double y = drawing.top + 80;
  const auto write = [&](const std::string& what, std::size_t letters, double line_height,
                         std::string_view css_class) {
    const std::vector<std::string> lines = wrapped(what, letters);
    drawing.body += paragraph({x, y}, line_height, lines, css_class);
    y += line_height * static_cast<double>(lines.size());
  };

  write(words.headline, 26, 60, "title");
  y += 10;
  const Drawing strike =
      strike_figure(shot.best.strike, plan.player, shot.before.table,
                    {shot.best.access.error_factor, shot.best.face, facts.access.lost_because});
  drawing.body += placed({x - zoom * strike.left, y - zoom * strike.top}, zoom, strike.body);
  y += zoom * strike.height + 20;
  const Drawing pace = pace_figure(facts.best.strike.cue_ball_speed_mps, plan.player.pace.sigma,
                                   shot.best.strike.elevation_rad);
  drawing.body += placed({x - zoom * pace.left, y - zoom * pace.top}, zoom, pace.body);
  y += zoom * pace.height + 60;
  for (const std::string& each :
       {words.strike, words.access, words.cue_ball, words.why, words.chance, words.caution}) {
    if (each.empty()) continue;
    write(each, 56, 42, "body");
    y += 18;
  }
  write(shot_legend(look), 62, 38, "subtitle");
  drawing.width += panel + 80;
  drawing.height = std::max(drawing.height, y - drawing.top);
  return svg_document(drawing, figure_style(look));
}

}  // namespace ahead::lesson
