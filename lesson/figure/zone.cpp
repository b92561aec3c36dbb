#include "lesson/figure/zone.h"

#include <algorithm>
#include <cmath>

#include "coach/leaves/wanted.h"
#include "lesson/words/chance.h"

namespace ahead::lesson {
namespace {

constexpr double spacing_m = 0.02;

Lattice chances_over(const coach::Worth& worth, const engine::Table& table) {
  // One node more on every side: outside the bed nothing can be potted from, so every line closes.
  Lattice lattice{.origin_m = {-spacing_m, -spacing_m},
                  .spacing_m = spacing_m,
                  .columns = static_cast<int>(std::ceil(table.width_m / spacing_m)) + 3,
                  .rows = static_cast<int>(std::ceil(table.length_m / spacing_m)) + 3};
  for (int row = 0; row < lattice.rows; ++row) {
    for (int column = 0; column < lattice.columns; ++column) {
      const engine::Vec2 place =
          lattice.origin_m + spacing_m * engine::Vec2{1.0 * column, 1.0 * row};
      const double r = table.cue_ball.radius_m;
      const bool on_bed =
          place.x > r && place.x < table.width_m - r && place.y > r && place.y < table.length_m - r;
      lattice.values.push_back(on_bed ? worth(place) : 0);
    }
  }
  return lattice;
}

/// Each node the mean of itself and its neighbours: the chances come from a coarser grid, whose
/// corners would show.
Lattice smoothed(const Lattice& rough) {
  Lattice smooth = rough;
  for (int row = 1; row + 1 < rough.rows; ++row) {
    for (int column = 1; column + 1 < rough.columns; ++column) {
      double sum = 0;
      for (const int up : {-1, 0, 1}) {
        for (const int right : {-1, 0, 1}) sum += rough.at(column + right, row + up);
      }
      smooth.values[static_cast<std::size_t>(row * rough.columns + column)] = sum / 9;
    }
  }
  return smooth;
}

}  // namespace

std::vector<ZoneLine> position_zone(const coach::Plan& plan, std::size_t index) {
  const coach::PlannedShot& shot = plan.shots[index];
  const coach::PlannedShot& next = plan.shots[index + 1];
  const auto& now = shot.before.balls;
  const auto place_of = [&](const std::string& id) {
    return std::ranges::find(now, id, &coach::LayoutBall::id) - now.begin();
  };
  // The balls of this shot, where the next one finds them.
  coach::Position later = coach::position_of(shot.before);
  for (const coach::LayoutBall& ball : next.before.balls) {
    later.at[static_cast<std::size_t>(place_of(ball.id))] = ball.at;
  }
  const std::string& target = next.before.balls[static_cast<std::size_t>(next.best.ball)].id;
  const coach::Scene scene = coach::scene_of(shot.before, plan.colour, plan.player);
  const coach::Worth worth(scene, later, shot.best.ball,
                           coach::NextPot{static_cast<int>(place_of(target)), next.best.pocket});
  const Lattice chances = smoothed(chances_over(worth, shot.before.table));
  std::vector<ZoneLine> lines;
  for (const double chance : zone_chances) {
    ZoneLine line{.chance = chance, .rings = contour(chances, chance)};
    if (!line.rings.empty()) lines.push_back(std::move(line));
  }
  return lines;
}

std::string zone_mark(const std::vector<ZoneLine>& zone, const View& view, Labels& labels) {
  std::string marks;
  std::string names;
  for (const ZoneLine& each : zone) {
    std::string data;
    std::vector<Point> places;
    for (const Ring& ring : each.rings) {
      std::vector<Point> points;
      for (const engine::Vec2 place : ring) points.push_back(view.at(place));
      data += closed_outline(points);
      for (const Point& at : points) places.push_back(at + Point{0, landing_name_size / 3});
    }
    marks += path(data, "zone");
    names += labels.name_at(places, odds_words(each.chance).substr(6), landing_name_size,
                            "hairline-name");
  }
  return group("position-zone", marks + names);
}

}  // namespace ahead::lesson
