#include "lesson/after_figure.h"

#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "lesson/figure/ball.h"
#include "lesson/figure/ribbon.h"
#include "lesson/figure/style.h"
#include "lesson/figure/table.h"
#include "lesson/figure/wrap.h"
#include "lesson/words/after_words.h"

namespace ahead::lesson {
namespace {

using coach::PlannedShot;

std::vector<DrawnStretch> stretches_of(const engine::Shot& shot, std::size_t ball,
                                       const engine::Table& table, const View& view) {
  return drawn_stretches(engine::path_of(shot, static_cast<int>(ball)), table, view);
}

/// Every meant path as a dashed line, with a ring where the ball was to stop.
std::string meant(const PlannedShot& shot, const View& view) {
  std::string marks;
  const engine::Table& table = shot.before.table;
  for (std::size_t i = 0; i < shot.before.balls.size(); ++i) {
    std::vector<Point> points;
    for (const DrawnStretch& stretch : stretches_of(shot.best.intended, i, table, view)) {
      for (const PathPoint& p : stretch.points) points.push_back(p.at);
    }
    if (points.empty()) continue;
    marks += path(open_outline(points), "ghost path");
    const engine::Ending& ending = shot.best.intended.endings[i];
    if (!ending.on_table()) continue;
    marks += ghost_mark(view.at(ending.position),
                        1000 * engine::ball_of(table, static_cast<int>(i)).radius_m, "rest");
  }
  return marks;
}

std::string likely(const coach::Aftermath& after, const PlannedShot& shot, const View& view,
                   const Look& look) {
  if (!after.likely) return {};
  std::string marks;
  // The cue ball's own ribbon comes last, above the others.
  for (std::size_t i = shot.before.balls.size(); i-- > 0;) {
    const auto drawn = stretches_of(*after.likely, i, shot.before.table, view);
    if (drawn.empty()) continue;
    marks += ribbon_mark(drawn, look.ribbon, colour_class(shot.before.balls[i].colour));
  }
  return marks;
}

std::string found(const coach::Aftermath& after, const View& view, const Look& look) {
  std::string marks;
  for (std::size_t i = 0; i < after.actual.balls.size(); ++i) {
    marks +=
        ball_mark(after.actual.balls[i], view.at(after.actual.balls[i].at),
                  1000 * engine::ball_of(after.actual.table, static_cast<int>(i)).radius_m, look);
  }
  return marks;
}

}  // namespace

std::string after_figure(const coach::Plan& plan, const coach::Aftermath& after, const Look& look) {
  const PlannedShot& shot = plan.shots[after.shot];
  const engine::Table& table = shot.before.table;
  const View view = view_of(table);
  const AfterWords words = after_words(plan, after);
  Drawing drawing = table_drawing(table);
  drawing.title = words.title;
  for (const std::string& end : words.ends) drawing.description += end + ' ';
  drawing.body = table_mark(table, view) + tape_mark(table, view) +
                 target_pocket_mark(table, shot.best.pocket, view) +
                 likely(after, shot, view, look) + meant(shot, view) + found(after, view, look);

  constexpr double panel = 900;
  const double x = drawing.left + drawing.width + 40;
  double y = drawing.top + 80;
  const auto write = [&](const std::string& what, std::size_t letters, double line_height,
                         std::string_view css_class) {
    const std::vector<std::string> lines = wrapped(what, letters);
    drawing.body += paragraph({x, y}, line_height, lines, css_class);
    y += line_height * static_cast<double>(lines.size()) + 18;
  };
  write(words.title, 26, 60, "title");
  for (const std::string& end : words.ends) write(end, 56, 42, "body");
  for (const std::string& sentence : words.strike) write(sentence, 56, 42, "body");
  for (const std::string* each : {&words.next, &words.from_here}) {
    if (!each->empty()) write(*each, 56, 42, "body");
  }
  std::string legend =
      "Balls are drawn where they were found. Dashed lines and rings show what was meant";
  legend += after.likely ? "; ribbons show the likeliest of the strikes that explain it." : ".";
  write(legend, 62, 38, "subtitle");
  drawing.width += panel + 80;
  return svg_document(drawing, figure_style(look));
}

}  // namespace ahead::lesson
