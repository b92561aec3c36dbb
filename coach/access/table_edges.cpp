#include "coach/access/table_edges.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "coach/access/rail_section.h"

namespace ahead::coach {
namespace {

using engine::Pocket;
using engine::Table;
using engine::Vec2;

void add_nose(std::vector<Edge>& edges, const engine::Rail& rail, double height_m) {
  if (const auto* segment = std::get_if<engine::RailSegment>(&rail)) {
    edges.push_back({segment->from, segment->to, height_m, EdgeKind::nose});
    return;
  }
  const auto& arc = std::get<engine::RailArc>(rail);
  constexpr double chord_rad = 15 * std::numbers::pi / 180;
  const double turn = arc.to_rad - arc.from_rad;
  const int chords = std::max(1, static_cast<int>(std::ceil(turn / chord_rad)));
  const auto at = [&](int i) {
    return arc.centre + arc.radius_m * engine::direction(arc.from_rad + turn * i / chords);
  };
  for (int i = 0; i < chords; ++i) edges.push_back({at(i), at(i + 1), height_m, EdgeKind::nose});
}

/// The parts of the edge that lie outside the pockets.
void add_outside_pockets(std::vector<Edge>& edges, const Edge& edge, const Table& table) {
  const double length = engine::norm(edge.to - edge.from);
  const Vec2 along = engine::unit(edge.to - edge.from);
  std::vector<std::array<double, 2>> holes;
  for (const Pocket& pocket : table.pockets) {
    const double middle = engine::dot(pocket.centre - edge.from, along);
    const double off = std::abs(engine::cross(along, pocket.centre - edge.from));
    if (off >= pocket.fall_radius_m) continue;
    const double half = std::sqrt(pocket.fall_radius_m * pocket.fall_radius_m - off * off);
    holes.push_back({middle - half, middle + half});
  }
  std::ranges::sort(holes);
  double from = 0;
  const auto add = [&](double to) {
    if (to > from) {
      edges.push_back({edge.from + from * along, edge.from + to * along, edge.height_m, edge.kind});
    }
  };
  for (const auto& [start, end] : holes) {
    add(std::min(start, length));
    from = std::max(from, end);
  }
  add(length);
}

/// The sides of the playing area moved out by `out_m`.
std::array<Edge, 4> frame(const Table& table, double out_m, double height_m) {
  const Vec2 low{-out_m, -out_m};
  const Vec2 high{table.width_m + out_m, table.length_m + out_m};
  const auto side = [&](Vec2 from, Vec2 to) {
    return Edge{.from = from, .to = to, .height_m = height_m, .kind = EdgeKind::rail_top};
  };
  return {side(low, {high.x, low.y}), side({high.x, low.y}, high), side(high, {low.x, high.y}),
          side({low.x, high.y}, low)};
}

}  // namespace

std::vector<Edge> table_edges(const Table& table) {
  std::vector<Edge> edges;
  for (const engine::Rail& rail : table.rails) add_nose(edges, rail, table.nose_height_m);
  const double top_m = table.nose_height_m + rail_top_above_nose_m;
  for (const Edge& edge : frame(table, rail_top_behind_nose_m, top_m)) {
    add_outside_pockets(edges, edge, table);
  }
  for (const Edge& edge : frame(table, rail_width_m, top_m)) edges.push_back(edge);
  return edges;
}

}  // namespace ahead::coach
