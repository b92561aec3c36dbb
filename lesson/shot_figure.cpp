#include "lesson/shot_figure.h"

#include <algorithm>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "lesson/figure/ball.h"
#include "lesson/figure/free_place.h"
#include "lesson/figure/hairline.h"
#include "lesson/figure/landing.h"
#include "lesson/figure/pace_figure.h"
#include "lesson/figure/ribbon.h"
#include "lesson/figure/strike_figure.h"
#include "lesson/figure/style.h"
#include "lesson/figure/table.h"
#include "lesson/figure/wrap.h"
#include "lesson/words/shot_words.h"

namespace ahead::lesson {
namespace {

using coach::LayoutBall;
using coach::PlannedShot;
using engine::Table;

/// What the marks of one shot share.
struct Scene {
  const PlannedShot& shot;
  View view;
  std::vector<std::vector<DrawnStretch>> paths;  ///< one a ball, empty for one that stays
  LandingContours landings;
  std::optional<Point> contact;  ///< the cue ball's centre when it meets a ball

  [[nodiscard]] const Table& table() const { return shot.before.table; }
  [[nodiscard]] Point centre(std::size_t ball) const { return view.at(shot.before.balls[ball].at); }
  [[nodiscard]] double radius(std::size_t ball) const {
    return 1000 * engine::ball_of(table(), static_cast<int>(ball)).radius_m;
  }
};

std::optional<Point> first_contact(const engine::Shot& shot, const View& view) {
  for (const engine::Event& event : shot.events) {
    const bool balls =
        event.kind == engine::EventKind::ball_ball || event.kind == engine::EventKind::group;
    if (balls && event.ball == 0) return view.at(event.at);
  }
  return std::nullopt;
}

Scene scene_of(const PlannedShot& shot) {
  Scene scene{.shot = shot, .view = view_of(shot.before.table)};
  for (std::size_t i = 0; i < shot.before.balls.size(); ++i) {
    scene.paths.push_back(drawn_stretches(engine::path_of(shot.best.intended, static_cast<int>(i)),
                                          scene.table(), scene.view));
  }
  scene.landings = landing_contours(shot.best.landings, scene.table());
  scene.contact = first_contact(shot.best.intended, scene.view);
  return scene;
}

std::string ribbons(const Scene& scene, const Look& look) {
  std::string marks;
  // The cue ball's own ribbon comes last, above the others.
  for (std::size_t i = scene.paths.size(); i-- > 0;) {
    if (scene.paths[i].empty()) continue;
    marks +=
        ribbon_mark(scene.paths[i], look.ribbon, colour_class(scene.shot.before.balls[i].colour));
  }
  return marks;
}

std::string balls(const Scene& scene, const Look& look) {
  std::string marks;
  for (std::size_t i = 0; i < scene.shot.before.balls.size(); ++i) {
    marks += ball_mark(scene.shot.before.balls[i], scene.centre(i), scene.radius(i), look);
  }
  return marks;
}

/// Rings where the cue ball meets the object ball, and where moved balls that stay up come to rest.
std::string ghosts(const Scene& scene) {
  std::string marks;
  if (scene.contact) marks += ghost_mark(*scene.contact, scene.radius(0), "contact");
  for (std::size_t i = 1; i < scene.paths.size(); ++i) {
    const engine::Ending& ending = scene.shot.best.intended.endings[i];
    if (scene.paths[i].empty() || !ending.on_table()) continue;
    marks += ghost_mark(scene.view.at(ending.position), scene.radius(i), "rest");
  }
  return marks;
}

std::vector<Obstacle> obstacles(const Scene& scene) {
  std::vector<Obstacle> all;
  for (std::size_t i = 0; i < scene.paths.size(); ++i) {
    all.push_back({scene.centre(i), scene.radius(i)});
    for (const DrawnStretch& stretch : scene.paths[i]) {
      for (const PathPoint& p : stretch.points) all.push_back({p.at, 8});
    }
  }
  for (const engine::Pocket& pocket : scene.table().pockets) {
    all.push_back({scene.view.at(pocket.centre), 1000 * pocket.fall_radius_m});
  }
  for (const std::vector<Ring>* rings : {&scene.landings.half, &scene.landings.nine_tenths}) {
    for (const Ring& ring : *rings) {
      for (const engine::Vec2 place : ring) all.push_back({scene.view.at(place), 0});
    }
  }
  return all;
}

/// From the place of contact onwards: where the player looks. Long enough for its name to stand
/// free.
std::string aim_line(const Scene& scene) {
  if (!scene.contact) return {};
  const Point along = engine::unit(*scene.contact - scene.centre(0));
  const Drawing bed{.width = 1000 * scene.table().width_m, .height = 1000 * scene.table().length_m};
  const Point end = free_end(*scene.contact, along, obstacles(scene), bed);
  return hairline_mark(*scene.contact, end, "line of aim", "aim", bed);
}

/// The number of this shot on its ball, and of the next shot on its own.
std::string numbers(const coach::Plan& plan, std::size_t shot, const Scene& scene,
                    const Drawing& drawing) {
  const std::vector<Obstacle> taken = obstacles(scene);
  const auto number_at = [&](std::size_t ball, std::size_t order) {
    const Point place = free_place(scene.centre(ball), scene.radius(ball) + order_radius + 3,
                                   order_radius, taken, drawing);
    return order_mark(place, static_cast<int>(order));
  };
  std::string marks = number_at(static_cast<std::size_t>(scene.shot.best.ball), shot + 1);
  if (shot + 1 < plan.shots.size()) {
    const PlannedShot& next = plan.shots[shot + 1];
    const std::string& id = next.before.balls[static_cast<std::size_t>(next.best.ball)].id;
    for (std::size_t i = 0; i < scene.shot.before.balls.size(); ++i) {
      if (scene.shot.before.balls[i].id == id) marks += group("later", number_at(i, shot + 2));
    }
  }
  return marks;
}

std::string alternative(const ShotWords& words) {
  std::string all;
  for (const std::string& each : {words.strike, words.access, words.cue_ball, words.why}) {
    if (!all.empty() && !each.empty()) all += ' ';
    all += each;
  }
  return all;
}

}  // namespace

Drawing shot_drawing(const coach::Plan& plan, std::size_t index, const Look& look) {
  const PlannedShot& shot = plan.shots[index];
  const Scene scene = scene_of(shot);
  const ShotWords words = shot_words(plan, index);
  Drawing drawing = table_drawing(scene.table());
  drawing.title = words.headline;
  drawing.description = alternative(words);
  drawing.body = table_mark(scene.table(), scene.view) + tape_mark(scene.table(), scene.view) +
                 target_pocket_mark(scene.table(), shot.best.pocket, scene.view) +
                 landing_mark(scene.landings, scene.view) + ribbons(scene, look) + aim_line(scene) +
                 ghosts(scene) + balls(scene, look) + numbers(plan, index, scene, drawing);
  return drawing;
}

Drawing shot_frame(const coach::Plan& plan, std::size_t index) {
  const PlannedShot& shot = plan.shots[index];
  const Scene scene = scene_of(shot);
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
