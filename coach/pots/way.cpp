#include "coach/pots/way.h"

#include <algorithm>
#include <iterator>

#include <tbb/parallel_for.h>

namespace ahead::coach {

using engine::Vec2;

namespace {

/// The balls that will not go before `ball`, as obstacles to it.
std::vector<Vec2> obstacles_of(const Scene& scene, const Position& position, int ball) {
  const BallSet staying = position.present & ~passing_blockers(scene.task, ball);
  std::vector<Vec2> obstacles;
  for (int i = 1; i < static_cast<int>(position.at.size()); ++i) {
    if (i != ball && has(staying, i)) {
      obstacles.push_back(position.at[static_cast<std::size_t>(i)]);
    }
  }
  return obstacles;
}

/// The way through `gates`, if one of them is open.
std::optional<Way> way_through(const Scene& scene, const Position& position, int ball, int pocket,
                               const PotGates& gates) {
  if (gates.none()) return std::nullopt;
  const engine::Table& table = scene.field.table();
  const Vec2 from = position.at[static_cast<std::size_t>(ball)];
  const double length = engine::norm(table.pockets[static_cast<std::size_t>(pocket)].centre - from);
  const Vec2 to = from + length * engine::direction(gates.middle_rad());
  const BallSet staying = ~passing_blockers(scene.task, ball);
  return Way{.ball = ball,
             .pocket = pocket,
             .gates = gates,
             .blockers = in_the_way(scene, position, from, to, table.object_ball.radius_m,
                                    bit(ball) | staying)};
}

/// `gates` finds the gates of a ball into one pocket, past obstacles.
template <typename Gates>
std::vector<Way> ways_with(const Scene& scene, const Position& position, int ball,
                           const Gates& gates) {
  const Vec2 from = position.at[static_cast<std::size_t>(ball)];
  const std::vector<Vec2> obstacles = obstacles_of(scene, position, ball);
  std::vector<Way> ways;
  for (int pocket = 0; pocket < static_cast<int>(scene.field.table().pockets.size()); ++pocket) {
    auto way = way_through(scene, position, ball, pocket, gates(from, pocket, obstacles));
    if (way) ways.push_back(*std::move(way));
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

std::optional<Way> way_to(const Scene& scene, const Position& position, int ball, int pocket) {
  return way_through(scene, position, ball, pocket,
                     find_gates(scene.field, position.at[static_cast<std::size_t>(ball)], pocket,
                                obstacles_of(scene, position, ball)));
}

std::vector<Way> quick_ways_of(const Scene& scene, const Position& position, int ball) {
  return ways_with(scene, position, ball,
                   [&](Vec2 from, int pocket, const std::vector<Vec2>& obstacles) {
                     return quick_gates(scene.field, from, pocket, obstacles);
                   });
}

std::vector<Way> ways_to_clear(const Scene& scene, const Position& position, WayCare care) {
  const BallSet clearing = (scene.task.own | scene.task.black) & position.present;
  std::vector<std::vector<Way>> of_ball(position.at.size());
  tbb::parallel_for(std::size_t{0}, of_ball.size(), [&](std::size_t i) {
    const int ball = static_cast<int>(i);
    if (!has(clearing, ball)) return;
    of_ball[i] = care == WayCare::exact ? ways_of(scene, position, ball)
                                        : quick_ways_of(scene, position, ball);
  });
  std::vector<Way> ways;
  for (auto& one : of_ball) std::ranges::move(one, std::back_inserter(ways));
  return ways;
}

}  // namespace ahead::coach
