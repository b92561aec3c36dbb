#include "lesson/figure/table.h"

#include <cmath>
#include <numbers>
#include <vector>

#include <fmt/format.h>

#include "lesson/figure/cushion_outline.h"

namespace ahead::lesson {
namespace {

using engine::Vec2;

/// Between the two rules of a cushion, m: they read as one line on a small screen if closer.
constexpr double rule_gap_m = 0.014;
/// The part of a fall circle that faces the bed and is drawn thin: the edge over which balls drop.
constexpr double opening_rad = 75 * std::numbers::pi / 180;

std::vector<Point> drawn(const Outline& outline, const View& view) {
  std::vector<Point> points;
  for (const Vec2 place : outline) points.push_back(view.at(place));
  return points;
}

std::string bed(const std::vector<Outline>& cushions, const View& view) {
  std::vector<Point> outline;
  for (const Outline& cushion : cushions) {
    for (const Vec2 place : cushion) outline.push_back(view.at(place));
  }
  return path(closed_outline(outline), "bed");
}

std::string circle_arc(Vec2 centre, double radius_m, double from_rad, double to_rad,
                       const View& view, std::string_view css_class) {
  const Point from = view.at(centre + radius_m * engine::direction(from_rad));
  const Point to = view.at(centre + radius_m * engine::direction(to_rad));
  const int large = to_rad - from_rad > std::numbers::pi ? 1 : 0;
  // Counter-clockwise on the table is counter-clockwise in the picture: sweep flag 0.
  return path(fmt::format("M{},{} A{},{} 0 {} 0 {},{}", number(from.x), number(from.y),
                          number(1000 * radius_m), number(1000 * radius_m), large, number(to.x),
                          number(to.y)),
              css_class);
}

std::string pocket(const engine::Pocket& pocket, Vec2 middle, const View& view) {
  // A middle pocket opens straight across the table, a corner pocket along the diagonal of a
  // square.
  Vec2 inwards = middle - pocket.centre;
  const bool is_middle = std::abs(inwards.y) < std::abs(inwards.x) / 2;
  inwards = is_middle ? Vec2{inwards.x, 0}
                      : Vec2{std::copysign(1.0, inwards.x), std::copysign(1.0, inwards.y)};
  const double open_rad = engine::angle_rad(inwards);
  const double r = pocket.fall_radius_m;
  return circle(view.at(pocket.centre), 1000 * r, "hole") +
         circle_arc(pocket.centre, r, open_rad + opening_rad,
                    open_rad - opening_rad + 2 * std::numbers::pi, view, "pocket") +
         circle_arc(pocket.centre, r, open_rad - opening_rad, open_rad + opening_rad, view, "fall");
}

/// The outer rule of a cushion, along those straight pieces that lie on the playing area's edge.
std::string outer_rule(const engine::Table& table, const engine::Rail& rail, const View& view) {
  const auto* segment = std::get_if<engine::RailSegment>(&rail);
  if (segment == nullptr) return {};
  const auto at_edge = [](double a, double b, double edge) {
    return std::abs(a - edge) < 1e-4 && std::abs(b - edge) < 1e-4;
  };
  Vec2 outwards;
  if (at_edge(segment->from.x, segment->to.x, 0)) outwards = {-1, 0};
  if (at_edge(segment->from.x, segment->to.x, table.width_m)) outwards = {1, 0};
  if (at_edge(segment->from.y, segment->to.y, 0)) outwards = {0, -1};
  if (at_edge(segment->from.y, segment->to.y, table.length_m)) outwards = {0, 1};
  if (outwards == Vec2{}) return {};
  return line(view.at(segment->from + rule_gap_m * outwards),
              view.at(segment->to + rule_gap_m * outwards), "rule");
}

std::string tape_along(Vec2 zero, Vec2 along, Vec2 out, double length_m, const View& view) {
  constexpr double off_m = 0.030;  // clear of the outer rule
  std::string marks;
  for (int mm = 0; mm <= static_cast<int>(std::lround(1000 * length_m)); mm += 100) {
    const Vec2 at = zero + mm / 1000.0 * along + off_m * out;
    const bool labelled = mm % 500 == 0 && mm > 0;
    marks += line(view.at(at), view.at(at + (labelled ? 0.018 : 0.009) * out), "tape");
    if (labelled) {
      Point place = view.at(at + 0.024 * out);
      place.y += out.y != 0 ? 16 : 7;
      marks +=
          text(place, fmt::format("{}", mm), out.x != 0 ? "tape-text end" : "tape-text middle");
    }
  }
  return marks;
}

}  // namespace

std::string table_mark(const engine::Table& table, const View& view) {
  const std::vector<Outline> cushions = cushion_outlines(table);
  const Vec2 middle{table.width_m / 2, table.length_m / 2};

  std::string marks = bed(cushions, view);
  const double baulk_m = table.markings.baulk_line_m;
  marks += line(view.at(Vec2{0, baulk_m}), view.at(Vec2{table.width_m, baulk_m}), "mark");
  marks += circle(view.at(table.markings.spot), 5, "spot");
  for (const engine::Pocket& each : table.pockets) marks += pocket(each, middle, view);
  for (const engine::Rail& rail : table.rails) marks += outer_rule(table, rail, view);
  for (const Outline& cushion : cushions) marks += path(open_outline(drawn(cushion, view)), "nose");
  return group("table", marks);
}

std::string tape_mark(const engine::Table& table, const View& view) {
  return group("tapes", tape_along({0, 0}, {0, 1}, {-1, 0}, table.length_m, view) +
                            tape_along({0, 0}, {1, 0}, {0, -1}, table.width_m, view));
}

std::string target_pocket_mark(const engine::Table& table, int index, const View& view) {
  const engine::Pocket& pocket = table.pockets[static_cast<std::size_t>(index)];
  const std::string_view name = engine::pocket_names[static_cast<std::size_t>(pocket.name)];
  const Point centre = view.at(pocket.centre);
  const double r = 1000 * pocket.fall_radius_m;
  const bool left = pocket.centre.x < table.width_m / 2;
  const double up = pocket.centre.y / table.length_m;
  const std::string marks = circle(centre, r + 5, "target-pocket");
  if (up > 0.3 && up < 0.7) {
    // Beside a middle pocket there is room for a name only along the cushion.
    const Point place{centre.x + (left ? 8 : -8), centre.y + r + 18};
    return marks + fmt::format("<g transform=\"translate({} {}) rotate({})\">\n{}</g>\n",
                               number(place.x), number(place.y), left ? -90 : 90,
                               text({0, 0}, name, left ? "pocket-name end" : "pocket-name start"));
  }
  const Point place{centre.x + (left ? -r : r), centre.y + (up < 0.3 ? r + 36 : -r - 16)};
  return marks + text(place, name, left ? "pocket-name start" : "pocket-name end");
}

}  // namespace ahead::lesson
