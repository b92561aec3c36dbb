#include "lesson/figure/shot_marks.h"

#include <fmt/format.h>

#include "lesson/figure/ball.h"

namespace ahead::lesson {
namespace {

using coach::PlannedShot;
using formats::Look;

std::optional<Point> first_contact(const engine::Shot& shot, const View& view) {
  for (const engine::Event& event : shot.events) {
    const bool balls =
        event.kind == engine::EventKind::ball_ball || event.kind == engine::EventKind::group;
    if (balls && event.ball == 0) return view.at(event.at);
  }
  return std::nullopt;
}

std::vector<Obstacle> obstacles(const ShotScene& scene) {
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

Point target_centre(const ShotScene& scene) {
  return scene.centre(static_cast<std::size_t>(scene.shot.best.ball));
}

}  // namespace

ShotScene scene_of(const PlannedShot& shot) {
  ShotScene scene{.shot = shot, .view = view_of(shot.before.table)};
  for (std::size_t i = 0; i < shot.before.balls.size(); ++i) {
    scene.paths.push_back(drawn_stretches(engine::path_of(shot.best.intended, static_cast<int>(i)),
                                          scene.table(), scene.view));
  }
  scene.landings = landing_contours(shot.best.landings, scene.table());
  scene.contact = first_contact(shot.best.intended, scene.view);
  return scene;
}

std::string ribbons(const ShotScene& scene, const Look& look) {
  std::string marks;
  // The cue ball's own ribbon comes last, above the others.
  for (std::size_t i = scene.paths.size(); i-- > 0;) {
    if (scene.paths[i].empty()) continue;
    marks +=
        ribbon_mark(scene.paths[i], look.ribbon, colour_class(scene.shot.before.balls[i].colour));
  }
  return marks;
}

std::string balls(const ShotScene& scene, const Look& look) {
  std::string marks;
  for (std::size_t i = 0; i < scene.shot.before.balls.size(); ++i) {
    marks += ball_mark(scene.shot.before.balls[i], scene.centre(i), scene.radius(i), look);
  }
  return marks;
}

std::string contact_ring(const ShotScene& scene) {
  return scene.contact ? ghost_mark(*scene.contact, scene.radius(0), "contact") : std::string{};
}

std::string rest_rings(const ShotScene& scene) {
  std::string marks;
  for (std::size_t i = 1; i < scene.paths.size(); ++i) {
    const engine::Ending& ending = scene.shot.best.intended.endings[i];
    if (scene.paths[i].empty() || !ending.on_table()) continue;
    marks += ghost_mark(scene.view.at(ending.position), scene.radius(i), "rest");
  }
  return marks;
}

std::string found_mark(const ShotScene& scene, const std::optional<coach::ShotResult>& came,
                       Labels& labels) {
  if (!came || !came->cue) return {};
  const Point at = scene.view.at(*came->cue);
  const double arm = 0.8 * scene.radius(0);
  const double off = scene.radius(0) + hairline_name_size;
  std::string marks;
  for (const Point along : {Point{arm, arm}, Point{arm, -arm}}) {
    marks += line(at - along, at + along, "found");
  }
  return marks + labels.name_at({at + Point{0, off}, at - Point{0, off - 16}, at + Point{120, 9},
                                 at - Point{120, -9}},
                                "stopped here", hairline_name_size, "hairline-name");
}

Labels labels_of(const ShotScene& scene) {
  const Drawing bed{.width = 1000 * scene.table().width_m, .height = 1000 * scene.table().length_m};
  Labels labels(bed, obstacles(scene));
  for (std::size_t i = 0; i < scene.paths.size(); ++i) {
    constexpr double outline = 4;
    labels.take(scene.centre(i), scene.radius(i) + outline);
  }
  return labels;
}

std::string aim_line(const ShotScene& scene, Labels& labels) {
  if (!scene.contact) return {};
  return labels.named_line(*scene.contact, engine::unit(*scene.contact - scene.centre(0)),
                           "line of aim", "aim");
}

std::string tangent_line(const ShotScene& scene, Labels& labels) {
  if (!scene.contact) return {};
  const Point centres = engine::unit(target_centre(scene) - *scene.contact);
  const Point incoming = *scene.contact - scene.centre(0);
  // A stunned ball keeps to the side on which it came.
  const Point square = engine::left_of(centres);
  const Point along = engine::dot(square, incoming) < 0 ? -square : square;
  return labels.named_line(*scene.contact, along, "tangent line", "soft");
}

std::string line_of_centres(const ShotScene& scene, Labels& labels) {
  if (!scene.contact) return {};
  const Point target = target_centre(scene);
  return labels.named_line(target, engine::unit(target - *scene.contact), "line of centres",
                           "soft");
}

std::string rival_paths(const ShotScene& scene, Labels& labels) {
  if (!scene.shot.runner_up) return {};
  const coach::ShotOption& rival = *scene.shot.runner_up;
  std::string marks;
  for (const int ball : {0, rival.ball}) {
    std::vector<Point> points;
    for (const DrawnStretch& stretch :
         drawn_stretches(engine::path_of(rival.intended, ball), scene.table(), scene.view)) {
      for (const PathPoint& p : stretch.points) points.push_back(p.at);
    }
    if (points.empty()) continue;
    marks += path(open_outline(points), "rival");
  }
  const engine::Ending& end = rival.intended.endings.front();
  if (!end.on_table()) return marks;
  const Point rest = scene.view.at(end.position);
  const double off = scene.radius(0) + hairline_name_size;
  return marks + ghost_mark(rest, scene.radius(0), "rest") +
         labels.name_at({rest + Point{0, off + 4}, rest - Point{0, off - 16}, rest + Point{120, 9},
                         rest - Point{120, -9}},
                        "runner-up", hairline_name_size, "hairline-name");
}

std::string order_numbers(const coach::Plan& plan, std::size_t shot, const ShotScene& scene,
                          const Drawing& drawing, Labels& labels) {
  const std::vector<Obstacle> taken = obstacles(scene);
  const auto number_at = [&](std::size_t ball, std::size_t order) {
    const Point place = free_place(scene.centre(ball), scene.radius(ball) + order_radius + 3,
                                   order_radius, taken, drawing);
    labels.take(place, order_radius + 2);
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

}  // namespace ahead::lesson
