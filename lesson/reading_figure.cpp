#include "lesson/reading_figure.h"

#include <algorithm>
#include <array>
#include <map>
#include <vector>

#include <fmt/format.h>

#include "engine/simulate/stretch.h"
#include "lesson/figure/ball.h"
#include "lesson/figure/contour.h"
#include "lesson/figure/style.h"
#include "lesson/figure/table.h"
#include "lesson/figure/view.h"
#include "lesson/figure/wrap.h"
#include "lesson/words/names.h"
#include "lesson/words/reading_words.h"

namespace ahead::lesson {
namespace {

using coach::BallReading;
using coach::PocketReading;
using coach::Reading;

/// Room between a ball and the ring that tells its role, drawing units.
constexpr double ring_gap = 9;

double radius(const Reading& reading, std::size_t ball) {
  return 1000 * engine::ball_of(reading.layout.table, static_cast<int>(ball)).radius_m;
}

Point centre(const Reading& reading, int ball, const View& view) {
  return view.at(reading.layout.balls[static_cast<std::size_t>(ball)].at);
}

std::string all_balls(const Reading& reading, const View& view, const Look& look) {
  std::string marks;
  for (std::size_t i = 0; i < reading.layout.balls.size(); ++i) {
    marks += ball_mark(reading.layout.balls[i], view.at(reading.layout.balls[i].at),
                       radius(reading, i), look);
    // The words call a ball by its number.
    const std::string& id = reading.layout.balls[i].id;
    const auto dash = id.find('-');
    if (dash == std::string::npos) continue;
    const double r = radius(reading, i);
    marks += text(view.at(reading.layout.balls[i].at) + Point{r + 2, -r + 4}, id.substr(dash + 1),
                  "landing-name start");
  }
  return marks;
}

/// The outline of a region, as a lattice with an empty edge all round.
std::string region_mark(const Reading& reading, const std::vector<bool>& region, const View& view) {
  const coach::Places& places = reading.places;
  Lattice lattice{.origin_m = places.first - places.spacing_m * engine::Vec2{1, 1},
                  .spacing_m = places.spacing_m,
                  .columns = places.columns + 2,
                  .rows = places.rows + 2};
  lattice.values.assign(
      static_cast<std::size_t>(lattice.columns) * static_cast<std::size_t>(lattice.rows), 0.0);
  for (std::size_t i = 0; i < region.size(); ++i) {
    const std::size_t column = i % static_cast<std::size_t>(places.columns);
    const std::size_t row = i / static_cast<std::size_t>(places.columns);
    if (region[i]) {
      lattice.values[(row + 1) * static_cast<std::size_t>(lattice.columns) + column + 1] = 1.0;
    }
  }
  std::string data;
  for (const Ring& ring : contour(lattice, 0.5)) {
    std::vector<Point> points;
    for (const engine::Vec2 place : ring) points.push_back(view.at(place));
    data += closed_outline(points);
  }
  return data.empty() ? data : path(data, "region");
}

/// The directions that drop at medium pace, from the ball to the fall.
std::string gate_mark(const Reading& reading, int ball, const PocketReading& pocket,
                      const View& view) {
  const engine::Vec2 from = reading.layout.balls[static_cast<std::size_t>(ball)].at;
  const coach::Gate gate = pocket.opening.gate();
  const std::array corners{
      view.at(from), view.at(from + pocket.opening.to_pocket_m * engine::direction(gate.from_rad)),
      view.at(from + pocket.opening.to_pocket_m * engine::direction(gate.to_rad))};
  return path(closed_outline(corners), "gate");
}

std::string blocked_lines(const Reading& reading, const BallReading& ball, const View& view) {
  std::string marks;
  for (const PocketReading& pocket : ball.pockets) {
    if (pocket.opening.shut != coach::Shut::blocked) continue;
    const auto index = static_cast<std::size_t>(pocket.opening.pocket);
    marks += line(centre(reading, ball.ball, view),
                  view.at(reading.layout.table.pockets[index].centre), "hairline soft");
  }
  return marks;
}

/// The balls that block, in rings, with the most by which each does.
std::string blocker_rings(const Reading& reading, const BallReading& ball, const View& view) {
  std::string marks;
  std::map<int, double> overlaps_m;
  for (const PocketReading& pocket : ball.pockets) {
    for (const coach::Blocker& one : pocket.opening.blockers) {
      overlaps_m[one.ball] = std::max(overlaps_m[one.ball], one.overlap_m);
    }
  }
  for (const auto& [other, overlap_m] : overlaps_m) {
    const double r = radius(reading, static_cast<std::size_t>(other));
    const Point at = centre(reading, other, view);
    marks += ghost_mark(at, r + ring_gap, "rest");
    marks += text(at + Point{0, r + 34}, fmt::format("{:.0f} mm", 1000 * overlap_m),
                  "hairline-name middle");
  }
  return marks;
}

/// What only these pictures have, added to the style of every figure.
std::string reading_style(const Look& look) {
  const auto paint = [](const formats::Theme& theme) {
    return fmt::format(
        ".region{{fill:{0};fill-opacity:.16}}.gate{{fill:{0};fill-opacity:.55}}\n"
        ".insurance{{stroke:{0}}}.problem{{stroke:{1}}}\n",
        theme.accent, theme.ink);
  };
  return ".insurance,.problem{fill:none;stroke-width:5}.problem{stroke-dasharray:4 9}\n" +
         paint(look.light) + "@media screen and (prefers-color-scheme:dark){\n" + paint(look.dark) +
         "}\n";
}

/// A drawing with paragraphs on its right, the first one large.
std::string with_words(Drawing drawing, const std::vector<std::string>& paragraphs,
                       const Look& look) {
  const double x = drawing.left + drawing.width + 40;
  double y = drawing.top + 80;
  for (std::size_t i = 0; i < paragraphs.size(); ++i) {
    const std::vector<std::string> lines = wrapped(paragraphs[i], i == 0 ? 28 : 54);
    const double line_height = i == 0 ? 60 : 42;
    drawing.body += paragraph({x, y}, line_height, lines, i == 0 ? "title" : "body");
    y += line_height * static_cast<double>(lines.size()) + 20;
  }
  drawing.width += 920;
  drawing.height = std::max(drawing.height, y - drawing.top);
  return svg_document(drawing, figure_style(look) + reading_style(look));
}

}  // namespace

Drawing reading_drawing(const Reading& reading, const Look& look) {
  const engine::Table& table = reading.layout.table;
  const View view = view_of(table);
  Drawing drawing = table_drawing(table);
  drawing.title = "The table as read";
  drawing.description = reading_words(reading).choice;
  drawing.body = table_mark(table, view) + tape_mark(table, view);
  coach::BallSet played = reading.on;
  for (const coach::ColourReading& colour : reading.colours) played |= colour.own;
  for (const BallReading& ball : reading.balls) {
    if (!coach::has(played, ball.ball)) continue;
    for (const PocketReading& pocket : ball.pockets) {
      if (!pocket.goes() || pocket.from_here.not_from) continue;
      drawing.body += gate_mark(reading, ball.ball, pocket, view);
    }
  }
  drawing.body += all_balls(reading, view, look);
  for (const BallReading& ball : reading.balls) {
    const bool black =
        reading.layout.balls[static_cast<std::size_t>(ball.ball)].colour == coach::Colour::black;
    if (!coach::has(played, ball.ball) && !black) continue;
    if (!ball.problem && !ball.insurance) continue;
    drawing.body += circle(centre(reading, ball.ball, view),
                           radius(reading, static_cast<std::size_t>(ball.ball)) + ring_gap,
                           ball.problem ? "problem" : "insurance");
  }
  return drawing;
}

Drawing ball_map_drawing(const Reading& reading, int ball, const Look& look) {
  const engine::Table& table = reading.layout.table;
  const View view = view_of(table);
  const BallReading& read = reading.of(ball);
  Drawing drawing = table_drawing(table);
  drawing.title = capitalised(ball_name(reading.layout.balls[static_cast<std::size_t>(ball)].id));
  drawing.description = "From where the cue ball pots it, and into which pockets.";
  drawing.body = table_mark(table, view) + tape_mark(table, view);
  for (const PocketReading& pocket : read.pockets) {
    if (pocket.goes()) drawing.body += region_mark(reading, pocket.region, view);
  }
  for (const PocketReading& pocket : read.pockets) {
    if (pocket.goes()) drawing.body += gate_mark(reading, ball, pocket, view);
  }
  drawing.body += blocked_lines(reading, read, view) + all_balls(reading, view, look) +
                  blocker_rings(reading, read, view) +
                  circle(centre(reading, ball, view),
                         radius(reading, static_cast<std::size_t>(ball)) + 5, "target-pocket");
  return drawing;
}

std::string reading_figure(const Reading& reading, const Look& look) {
  const ReadingWords words = reading_words(reading);
  std::vector<std::string> paragraphs{"The table as read", words.choice};
  paragraphs.insert(paragraphs.end(), words.reasons.begin(), words.reasons.end());
  paragraphs.emplace_back(
      "Wedges: pots that go from here, as wide as their gate at medium pace. Dotted rings: problem "
      "balls. Full rings: insurance balls.");
  return with_words(reading_drawing(reading, look), paragraphs, look);
}

std::string ball_map_figure(const Reading& reading, int ball, const Look& look) {
  const BallWords words = ball_words(reading, reading.of(ball));
  std::vector<std::string> paragraphs{words.name};
  paragraphs.insert(paragraphs.end(), words.sentences.begin(), words.sentences.end());
  paragraphs.emplace_back(
      "Shaded: the cue ball pots it from there, the darker the more pockets. Wedges: its gates at "
      "medium pace. Dashed rings: balls that block a line, with the "
      "most by which each does.");
  return with_words(ball_map_drawing(reading, ball, look), paragraphs, look);
}

}  // namespace ahead::lesson
