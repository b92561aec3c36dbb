#include "coach/scene.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

namespace ahead::coach {

using engine::Vec2;

Scene scene_of(const Layout& layout, ToPlay colour, const Player& player) {
  return scene_of(layout, colour, player, engine::Playfield(layout.table));
}

Scene scene_of(const Layout& layout, ToPlay colour, const Player& player, engine::Playfield field) {
  assert(field.table() == layout.table);
  Scene scene{.field = std::move(field), .task = task_of(layout, colour), .player = player};
  for (const LayoutBall& ball : layout.balls) scene.sigma_m.push_back(ball.sigma_m);
  scene.edges = table_edges(layout.table);
  return scene;
}

BallSet passing_blockers(const Task& task, int ball) {
  if (has(task.black, ball)) return task.own;
  if (task.colour != ToPlay::colours) return task.own & ~bit(ball);
  // In a fixed order: the balls that are on while this one is still waiting.
  BallSet gone = 0;
  BallSet left = task.own;
  while (left != 0) {
    const BallSet on = balls_on(task, left);
    if (has(on, ball)) break;
    gone |= on;
    left &= ~on;
  }
  return gone;
}

BallSet in_the_way(const Scene& scene, const Position& position, Vec2 from, Vec2 to,
                   double radius_m, BallSet ignored) {
  const double standing_m = scene.field.table().object_ball.radius_m;
  const double length = engine::norm(to - from);
  const Vec2 along = engine::unit(to - from);
  BallSet set = 0;
  for (int i = 1; i < static_cast<int>(position.at.size()); ++i) {
    if (!has(position.present & ~ignored, i)) continue;
    const Vec2 offset = position.at[static_cast<std::size_t>(i)] - from;
    // A ball that touches the moving one from behind or beside is not in its way.
    const double ahead_m = engine::dot(offset, along);
    if (ahead_m <= 0) continue;
    const double s = std::min(ahead_m, length);
    if (engine::norm(offset - s * along) < radius_m + standing_m) set |= bit(i);
  }
  return set;
}

}  // namespace ahead::coach
