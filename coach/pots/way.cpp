#include "coach/pots/way.h"

#include <algorithm>

namespace ahead::coach {

using engine::Vec2;

namespace {

/// `gates` finds the gates of a ball into one pocket, past obstacles.
template <typename Gates>
std::vector<Way> ways_with(const Scene& scene, const Position& position, int ball,
                           const Gates& gates) {
  const engine::Table& table = scene.field.table();
  const Vec2 from = position.at[static_cast<std::size_t>(ball)];
  const BallSet passing = passing_blockers(scene.task, ball);
  std::vector<Vec2> obstacles;
  for (int i = 1; i < static_cast<int>(position.at.size()); ++i) {
    if (i != ball && has(position.present & ~passing, i)) {
      obstacles.push_back(position.at[static_cast<std::size_t>(i)]);
    }
  }
  std::vector<Way> ways;
  for (int pocket = 0; pocket < static_cast<int>(table.pockets.size()); ++pocket) {
    Way way{.ball = ball, .pocket = pocket, .gates = gates(from, pocket, obstacles)};
    if (way.gates.none()) continue;
    const double length =
        engine::norm(table.pockets[static_cast<std::size_t>(pocket)].centre - from);
    const Vec2 to = from + length * engine::direction(way.gates.middle_rad());
    way.blockers =
        in_the_way(scene, position, from, to, table.object_ball.radius_m, bit(ball) | ~passing);
    ways.push_back(way);
  }
  return ways;
}

}  // namespace

std::vector<Way> ways_of(const Scene& scene, const Position& position, int ball) {
  return ways_with(scene, position, ball,
                   [&](Vec2 from, int pocket, const std::vector<Vec2>& obstacles) {
                     return find_gates(scene.field, from, pocket, obstacles);
                   });
}

std::vector<Way> quick_ways_of(const Scene& scene, const Position& position, int ball) {
  return ways_with(scene, position, ball,
                   [&](Vec2 from, int pocket, const std::vector<Vec2>& obstacles) {
                     return quick_gates(scene.field, from, pocket, obstacles);
                   });
}

}  // namespace ahead::coach
