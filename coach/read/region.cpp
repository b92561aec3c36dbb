#include "coach/read/region.h"

#include <algorithm>
#include <cmath>

#include "coach/aim/aim.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

constexpr double spacing_m = 0.05;

/// Distance in plan at which the cue ball touches an object ball, m: 2 sqrt(R1 R2).
double touching_m(const engine::Table& table) {
  return 2 * std::sqrt(table.cue_ball.radius_m * table.object_ball.radius_m);
}

/// How far each ball but `ball` reaches into the cue ball's way from `from` to `to`.
std::vector<Blocker> in_way(const engine::Table& table, const Position& position, int ball,
                            Vec2 from, Vec2 to) {
  const double length_m = engine::norm(to - from);
  const Vec2 along = engine::unit(to - from);
  std::vector<Blocker> found;
  for (int i = 1; i < static_cast<int>(position.at.size()); ++i) {
    if (i == ball || !has(position.present, i)) continue;
    const Vec2 offset = position.at[static_cast<std::size_t>(i)] - from;
    // A ball that touches the cue ball from behind or beside is not in its way.
    const double ahead_m = engine::dot(offset, along);
    if (ahead_m <= 0) continue;
    const double overlap_m =
        touching_m(table) - engine::norm(offset - std::min(ahead_m, length_m) * along);
    if (overlap_m > 0) found.push_back({.ball = i, .overlap_m = overlap_m});
  }
  std::ranges::stable_sort(found, std::ranges::greater{}, &Blocker::overlap_m);
  return found;
}

/// A ball tight on a cushion is met a hair off its gate's middle line, so a little is forgiven.
bool on_bed(const engine::Playfield& field, Vec2 at) {
  constexpr double forgiven_m = 0.002;
  const double room_m = engine::norm(engine::nearest_on(field.nose(), at) - at);
  return room_m >= field.cue_ball().reach_m - forgiven_m;
}

}  // namespace

Vec2 Places::at(std::size_t place) const {
  const std::size_t across = place % static_cast<std::size_t>(columns);
  const std::size_t along = place / static_cast<std::size_t>(columns);
  return first + spacing_m * Vec2{static_cast<double>(across), static_cast<double>(along)};
}

Places places_of(const engine::Playfield& field, const Position& position) {
  const engine::Table& table = field.table();
  const double inset_m = field.cue_ball().reach_m + 0.001;
  const auto count = [&](double length_m) {
    return static_cast<int>((length_m - 2 * inset_m) / spacing_m) + 1;
  };
  Places places{
      .spacing_m = spacing_m, .columns = count(table.width_m), .rows = count(table.length_m)};
  // Centred on the bed.
  places.first = {0.5 * (table.width_m - (places.columns - 1) * spacing_m),
                  0.5 * (table.length_m - (places.rows - 1) * spacing_m)};
  places.free.assign(
      static_cast<std::size_t>(places.columns) * static_cast<std::size_t>(places.rows), true);
  for (std::size_t place = 0; place < places.size(); ++place) {
    const Vec2 at = places.at(place);
    for (int i = 1; i < static_cast<int>(position.at.size()); ++i) {
      if (has(position.present, i) &&
          engine::norm(position.at[static_cast<std::size_t>(i)] - at) < touching_m(table)) {
        places.free[place] = false;
      }
    }
  }
  return places;
}

PotLine pot_line(const engine::Playfield& field, const Position& position, int ball,
                 const Gate& gate) {
  const engine::Table& table = field.table();
  const Vec2 object = position.at[static_cast<std::size_t>(ball)];
  PotLine line{.ball = ball, .along = engine::direction(gate.middle_rad())};
  line.ghost = ghost_ball(table, object, object + line.along);
  for (int i = 1; i < static_cast<int>(position.at.size()); ++i) {
    if (i == ball || !has(position.present, i)) continue;
    const double overlap_m =
        touching_m(table) - engine::norm(position.at[static_cast<std::size_t>(i)] - line.ghost);
    if (overlap_m > 0) line.at_ghost.push_back({.ball = i, .overlap_m = overlap_m});
  }
  std::ranges::stable_sort(line.at_ghost, std::ranges::greater{}, &Blocker::overlap_m);
  line.room = line.at_ghost.empty() && on_bed(field, line.ghost);
  return line;
}

LineUp line_up(const engine::Table& table, const Position& position, const PotLine& line,
               Vec2 cue) {
  const double cosine = engine::dot(line.along, engine::unit(line.ghost - cue));
  LineUp result{.cut_rad = std::acos(std::clamp(cosine, -1.0, 1.0))};
  if (result.cut_rad > finest_cut_rad) {
    result.not_from = NotFrom::cut;
  } else if (!line.room) {
    result.not_from = NotFrom::ghost;
    result.in_way = line.at_ghost;
  } else {
    result.in_way = in_way(table, position, line.ball, cue, line.ghost);
    if (!result.in_way.empty()) result.not_from = NotFrom::in_way;
  }
  return result;
}

std::vector<bool> region_of(const engine::Playfield& field, const Position& position, int ball,
                            const Opening& opening, const Places& places) {
  std::vector<bool> region(places.size(), false);
  if (!opening.goes()) return region;
  const PotLine line = pot_line(field, position, ball, opening.gate());
  if (!line.room) return region;
  for (std::size_t place = 0; place < places.size(); ++place) {
    region[place] =
        places.free[place] && !line_up(field.table(), position, line, places.at(place)).not_from;
  }
  return region;
}

double share_of(const std::vector<bool>& region, const Places& places) {
  const auto free = std::ranges::count(places.free, true);
  return free == 0
             ? 0
             : static_cast<double>(std::ranges::count(region, true)) / static_cast<double>(free);
}

}  // namespace ahead::coach
