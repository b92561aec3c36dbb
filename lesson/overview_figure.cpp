#include "lesson/overview_figure.h"

#include <vector>

#include <fmt/format.h>

#include "engine/simulate/stretch.h"
#include "lesson/figure/ball.h"
#include "lesson/figure/free_place.h"
#include "lesson/figure/style.h"
#include "lesson/figure/svg.h"
#include "lesson/figure/table.h"
#include "lesson/figure/wrap.h"
#include "lesson/words/plan_words.h"

namespace ahead::lesson {
namespace {

using coach::Plan;

const coach::LayoutBall& target(const coach::PlannedShot& shot) {
  return shot.before.balls[static_cast<std::size_t>(shot.best.ball)];
}

/// From each ball, where it lies when its turn comes, to its pocket.
std::string pot_lines(const Plan& plan, const View& view) {
  std::string marks;
  for (const coach::PlannedShot& shot : plan.shots) {
    const auto& pocket = shot.before.table.pockets[static_cast<std::size_t>(shot.best.pocket)];
    // A ball that an earlier shot moves is potted from where it then lies.
    for (const coach::LayoutBall& ball : plan.layout.balls) {
      if (ball.id != target(shot).id || engine::norm(ball.at - target(shot).at) < 0.005) continue;
      marks += ghost_mark(view.at(target(shot).at), 1000 * shot.before.table.object_ball.radius_m,
                          "rest");
    }
    marks += line(view.at(target(shot).at), view.at(pocket.centre), "hairline soft");
  }
  return marks;
}

std::vector<Obstacle> obstacles(const Plan& plan, const View& view) {
  std::vector<Obstacle> all;
  for (const coach::LayoutBall& ball : plan.layout.balls) all.push_back({view.at(ball.at), 26});
  for (const coach::PlannedShot& shot : plan.shots) {
    const auto& pocket = shot.before.table.pockets[static_cast<std::size_t>(shot.best.pocket)];
    const Point from = view.at(target(shot).at);
    const Point to = view.at(pocket.centre);
    for (int i = 1; i < 20; ++i) all.push_back({from + i / 20.0 * (to - from), 2});
  }
  return all;
}

}  // namespace

Drawing overview_drawing(const Plan& plan, const Look& look) {
  const engine::Table& table = plan.layout.table;
  const View view = view_of(table);
  const PlanWords words = plan_words(plan);
  Drawing drawing = table_drawing(table);
  drawing.title = words.title;
  drawing.description = words.order;
  drawing.body = table_mark(table, view) + tape_mark(table, view) + pot_lines(plan, view);

  const std::vector<coach::LayoutBall>& balls = plan.layout.balls;
  for (std::size_t i = 0; i < balls.size(); ++i) {
    const double radius = 1000 * engine::ball_of(table, static_cast<int>(i)).radius_m;
    drawing.body += ball_mark(balls[i], view.at(balls[i].at), radius, look);
  }
  std::vector<Obstacle> taken = obstacles(plan, view);
  for (std::size_t i = 0; i < plan.shots.size(); ++i) {
    for (const coach::LayoutBall& ball : balls) {
      if (ball.id != target(plan.shots[i]).id) continue;
      const double distance = 1000 * table.object_ball.radius_m + order_radius + 3;
      const Point place = free_place(view.at(ball.at), distance, order_radius, taken, drawing);
      taken.push_back({place, order_radius});
      drawing.body += order_mark(place, static_cast<int>(i) + 1);
    }
  }
  return drawing;
}

std::string overview_figure(const Plan& plan, const Look& look) {
  Drawing drawing = overview_drawing(plan, look);
  const double x = drawing.left + drawing.width + 40;
  double y = drawing.top + 80;
  for (const std::string& each : sentences(plan_words(plan))) {
    const bool title = y < drawing.top + 81;
    const std::vector<std::string> lines = wrapped(each, title ? 30 : 52);
    const double line_height = title ? 60 : 44;
    drawing.body += paragraph({x, y}, line_height, lines, title ? "title" : "body");
    y += line_height * static_cast<double>(lines.size()) + 24;
  }
  drawing.width += 900;
  return svg_document(drawing, figure_style(look));
}

}  // namespace ahead::lesson
