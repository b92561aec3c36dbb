#include "lesson/pot_figure.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include "engine/simulate/stretch.h"
#include "lesson/figure/ball.h"
#include "lesson/figure/labels.h"
#include "lesson/figure/landing.h"
#include "lesson/figure/pace_figure.h"
#include "lesson/figure/ribbon.h"
#include "lesson/figure/strike_figure.h"
#include "lesson/figure/style.h"
#include "lesson/figure/table.h"
#include "lesson/figure/view.h"
#include "lesson/figure/wrap.h"
#include "lesson/words/access_words.h"
#include "lesson/words/names.h"
#include "lesson/words/pot_words.h"

namespace ahead::lesson {
namespace {

using coach::PotAnalysis;
using engine::Vec2;

double radius(const engine::Table& table, std::size_t ball) {
  return 1000 * engine::ball_of(table, static_cast<int>(ball)).radius_m;
}

std::string title(const PotAnalysis& analysis, const coach::Layout& layout) {
  const std::string& id = layout.balls[static_cast<std::size_t>(analysis.ball)].id;
  return capitalised(ball_name(id)) + " to " + pocket_name(layout.table, analysis.pocket);
}

std::string balls(const coach::Layout& layout, const View& view, const Look& look) {
  std::string marks;
  for (std::size_t i = 0; i < layout.balls.size(); ++i) {
    marks += ball_mark(layout.balls[i], view.at(layout.balls[i].at), radius(layout.table, i), look);
  }
  return marks;
}

/// The directions that drop at medium pace, or the slowest that does, out to the fall.
std::string gate_mark(const PotAnalysis& analysis, Vec2 from, const View& view) {
  const auto known = analysis.gates[1] ? analysis.gates[1] : analysis.gates[0];
  if (!known) return {};
  const std::array corners{
      view.at(from), view.at(from + analysis.to_pocket_m * engine::direction(known->from_rad)),
      view.at(from + analysis.to_pocket_m * engine::direction(known->to_rad))};
  return path(closed_outline(corners), "gate");
}

/// The circle or the region that is wanted; for a next pot, its line.
std::string wanted_mark(const PotAnalysis& analysis, const coach::Layout& layout,
                        const View& view) {
  if (!analysis.wanted) return {};
  if (const auto* leave = std::get_if<coach::Leave>(&*analysis.wanted)) {
    return circle(view.at(leave->at), 1000 * leave->radius_m, "wanted");
  }
  if (const auto* region = std::get_if<coach::Region>(&*analysis.wanted)) {
    std::vector<Point> corners;
    for (const Vec2 corner : region->outline) corners.push_back(view.at(corner));
    return path(closed_outline(corners), "wanted");
  }
  const auto& next = std::get<coach::NextPot>(*analysis.wanted);
  const Vec2 ball = layout.balls[static_cast<std::size_t>(next.ball)].at;
  const Vec2 hole = layout.table.pockets[static_cast<std::size_t>(next.pocket)].centre;
  return line(view.at(ball), view.at(hole), "hairline soft") +
         circle(view.at(ball), radius(layout.table, 1) + 8, "wanted");
}

/// Construction lines from the place of contact, each named at its end.
std::string lines(const PotAnalysis& analysis, Labels& labels, const View& view, Vec2 cue) {
  const Point ghost = view.at(analysis.ghost);
  const auto to = [&](double rad, std::string_view name, std::string_view css_class) {
    const Vec2 along = engine::direction(rad);
    return labels.named_line(ghost, {along.x, -along.y}, name, css_class);
  };
  // On a nearly straight pot the line of aim would hide in the pot line.
  constexpr double nearly_straight_rad = 0.14;
  std::string marks;
  if (analysis.strikes.front().option.cut_rad > nearly_straight_rad) {
    marks += to(engine::angle_rad(analysis.ghost - cue), "line of aim", "aim");
  }
  marks += to(analysis.tangent_rad, "tangent line", "soft");
  marks += to(analysis.natural_rad, "natural line", "soft");
  return marks;
}

/// What only these pictures have, added to the style of every figure.
std::string pot_style(const Look& look) {
  const auto paint = [](const formats::Theme& theme) {
    return fmt::format(
        ".gate{{fill:{0};fill-opacity:.3}}\n"
        ".wanted{{stroke:{0};fill:{0};fill-opacity:.1}}\n"
        ".leave{{stroke:{1}}}.leave.follow{{fill:{1}}}.leave.stun{{fill:{2}}}"
        ".leave.screw{{fill:{0}}}.leave.bumped{{stroke-opacity:.45;fill-opacity:.3}}\n",
        theme.accent, theme.ink, theme.card);
  };
  return ".wanted{stroke-width:4;stroke-dasharray:14 8}.leave{stroke-width:2}\n" +
         paint(look.light) + "@media screen and (prefers-color-scheme:dark){\n" + paint(look.dark) +
         "}\n";
}

/// Round for follow, square for stun, pointing down for screw.
std::string leave_mark(const coach::ReachableLeave& leave, Point at) {
  const double r = 3.5 + 2.6 * leave.touch.cue_speed_mps;
  const std::string bumped = leave.touched != 0 ? " bumped" : "";
  if (leave.roll_at_contact >= 0.15) return circle(at, r, "leave follow" + bumped);
  if (leave.roll_at_contact > -0.15) {
    return rectangle(at - 0.9 * Point{r, r}, 1.8 * r, 1.8 * r, "leave stun" + bumped);
  }
  const std::array corners{at + Point{-1.1 * r, -0.8 * r}, at + Point{1.1 * r, -0.8 * r},
                           at + Point{0, 1.2 * r}};
  return path(closed_outline(corners), "leave screw" + bumped);
}

/// Writes paragraphs under each other.
struct Panel {
  Drawing& drawing;
  double x = 0;
  double y = 0;

  void write(const std::string& what, std::size_t letters, double line_height,
             std::string_view css_class) {
    const std::vector<std::string> lines = wrapped(what, letters);
    drawing.body += paragraph({x, y}, line_height, lines, css_class);
    y += line_height * static_cast<double>(lines.size()) + 18;
  }
  void place(const Drawing& figure, double zoom) {
    drawing.body += placed({x - zoom * figure.left, y - zoom * figure.top}, zoom, figure.body);
    y += zoom * figure.height + 30;
  }
};

constexpr double panel_width = 940;

Panel panel_beside(Drawing& drawing) {
  return {.drawing = drawing, .x = drawing.left + drawing.width + 40, .y = drawing.top + 80};
}

std::string finished(Drawing drawing, const Panel& panel, const Look& look) {
  drawing.width += panel_width;
  drawing.height = std::max(drawing.height, panel.y - drawing.top);
  return svg_document(drawing, figure_style(look) + pot_style(look));
}

}  // namespace

Drawing pot_drawing(const PotAnalysis& analysis, const coach::Layout& layout, const Look& look) {
  const engine::Table& table = layout.table;
  const View view = view_of(table);
  const coach::ShotOption& best = analysis.strikes.front().option;
  const Vec2 cue = layout.balls.front().at;

  std::string ribbons;
  std::string ghosts = ghost_mark(view.at(analysis.ghost), radius(table, 0), "contact");
  std::vector<Obstacle> taken;
  for (std::size_t i = layout.balls.size(); i-- > 0;) {
    taken.push_back({view.at(layout.balls[i].at), radius(table, i)});
    const auto path =
        drawn_stretches(engine::path_of(best.intended, static_cast<int>(i)), table, view);
    if (path.empty()) continue;
    ribbons += ribbon_mark(path, look.ribbon, colour_class(layout.balls[i].colour));
    const engine::Ending& ending = best.intended.endings[i];
    if (i > 0 && ending.on_table()) {
      ghosts += ghost_mark(view.at(ending.position), radius(table, i), "rest");
    }
    for (const DrawnStretch& stretch : path) {
      for (const PathPoint& p : stretch.points) taken.push_back({p.at, 8});
    }
  }
  const LandingContours landings = landing_contours(best.landings, table);
  for (const Ring& ring : landings.nine_tenths) {
    for (const Vec2 place : ring) taken.push_back({view.at(place), 0});
  }

  Drawing drawing = table_drawing(table);
  drawing.title = title(analysis, layout);
  drawing.description = "The pot, the lines through the contact, and where the cue ball stops.";
  const Drawing bed{.width = 1000 * table.width_m, .height = 1000 * table.length_m};
  Labels labels(bed, taken);
  for (std::size_t i = 0; i < layout.balls.size(); ++i) {
    constexpr double outline = 4;
    labels.take(view.at(layout.balls[i].at), radius(table, i) + outline);
  }
  drawing.body =
      table_mark(table, view) + tape_mark(table, view) +
      target_pocket_mark(table, analysis.pocket, view) +
      gate_mark(analysis, layout.balls[static_cast<std::size_t>(analysis.ball)].at, view) +
      wanted_mark(analysis, layout, view) + landing_mark(landings, view) + ribbons +
      lines(analysis, labels, view, cue) + ghosts + balls(layout, view, look);
  return drawing;
}

Drawing leaves_drawing(const PotAnalysis& analysis, const coach::Layout& layout, const Look& look) {
  const engine::Table& table = layout.table;
  const View view = view_of(table);
  Drawing drawing = table_drawing(table);
  drawing.title = "Where the cue ball can be left";
  drawing.description = "A mark for each strike of the grid that pots the ball.";
  std::string marks;
  for (const coach::ReachableLeave& leave : analysis.reachable) {
    marks += leave_mark(leave, view.at(leave.rest));
  }
  drawing.body =
      table_mark(table, view) + tape_mark(table, view) +
      target_pocket_mark(table, analysis.pocket, view) + wanted_mark(analysis, layout, view) +
      landing_mark(landing_contours(analysis.strikes.front().option.landings, table), view) +
      balls(layout, view, look) + group("leaves", marks);
  return drawing;
}

std::string pot_figure(const PotAnalysis& analysis, const coach::Layout& layout,
                       const coach::Player& player, const Look& look) {
  const coach::ShotOption& best = analysis.strikes.front().option;
  Drawing drawing = pot_drawing(analysis, layout, look);
  Panel panel = panel_beside(drawing);
  panel.write(drawing.title, 28, 60, "title");
  const AccessFacts access = access_facts(best.access, best.face, layout, player);
  panel.place(strike_figure(best.strike, player, layout.table,
                            {best.access.error_factor, best.face, access.lost_because}),
              2);
  panel.place(pace_figure(engine::norm(best.intended.stretches.front().start.velocity),
                          player.pace.sigma, best.strike.elevation_rad),
              2);
  panel.y += 30;
  for (const std::string& each : pot_sentences(analysis, layout, player)) {
    panel.write(each, 58, 42, "body");
  }
  panel.write(
      fmt::format(
          "Ribbons are paths: wider is faster, a tick every {:g} s; hollow slides, filled "
          "rolls. Shaded wedge: the gate at medium pace. The cue ball stops inside the full "
          "ring about 5 times in 10, inside the dotted one about 9 in 10, when the pot "
          "succeeds.{}",
          look.ribbon.tick_every_s, analysis.wanted ? " Dashed: where it is wanted." : ""),
      56, 38, "subtitle");
  return finished(drawing, panel, look);
}

std::string leaves_figure(const PotAnalysis& analysis, const coach::Layout& layout,
                          const Look& look) {
  Drawing drawing = leaves_drawing(analysis, layout, look);
  Panel panel = panel_beside(drawing);
  panel.write(drawing.title, 28, 60, "title");
  panel.write(title(analysis, layout) +
                  fmt::format(": {} strikes of the grid pot it.", analysis.reachable.size()),
              58, 42, "body");
  struct Row {
    double roll;
    const char* words;
  };
  for (const Row row : {Row{1, "follow: rolling forward at the contact"},
                        Row{0, "stun: sliding at the contact, no roll either way"},
                        Row{-1, "screw: back spin at the contact"}}) {
    coach::ReachableLeave sample{.roll_at_contact = row.roll};
    sample.touch.cue_speed_mps = 1.5;
    drawing.body += leave_mark(sample, {panel.x + 16, panel.y - 10});
    drawing.body += text({panel.x + 50, panel.y}, row.words, "body");
    panel.y += 52;
  }
  double x = panel.x + 16;
  for (const double speed_mps : {0.5, 1.5, 3.0}) {
    coach::ReachableLeave sample{.roll_at_contact = 1};
    sample.touch.cue_speed_mps = speed_mps;
    drawing.body += leave_mark(sample, {x, panel.y - 10});
    drawing.body += text({x + 28, panel.y}, fmt::format("{:.1f} m/s", speed_mps), "body");
    x += 190;
  }
  panel.y += 62;
  panel.write(
      "A larger mark is a faster cue. Faint marks: another ball is moved on the way. Each mark is "
      "where the cue ball stops when the strike goes as meant; the rings are those of the first "
      "strike with the player's errors.",
      56, 38, "subtitle");
  return finished(drawing, panel, look);
}

}  // namespace ahead::lesson
