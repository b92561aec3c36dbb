#pragma once

#include <vector>

#include "coach/access/table_edges.h"
#include "coach/layout.h"
#include "coach/player/player.h"
#include "coach/position.h"
#include "coach/rules/visit.h"

/// What stays the same throughout one plan: table, task, player.
namespace ahead::coach {

struct Scene {
  engine::Playfield field;
  Task task;
  Player player;
  std::vector<double> sigma_m;  ///< of each ball's captured place
  std::vector<Edge> edges;      ///< of the table, for the cue to pass over
};

[[nodiscard]] Scene scene_of(const Layout& layout, ToPlay colour, const Player& player);

/// The same on a field that is prepared already: preparing one costs as much as a thousand shots.
/// Requires field.table() == layout.table.
[[nodiscard]] Scene scene_of(const Layout& layout, ToPlay colour, const Player& player,
                             engine::Playfield field);

/// Balls that have left, or may have, by the time `ball` is on: they only block it for now.
[[nodiscard]] BallSet passing_blockers(const Task& task, int ball);

/// Balls, of those present, that stand in the straight way of a ball of
/// radius `radius_m` from `from` to `to`. `ignored` are left out.
[[nodiscard]] BallSet in_the_way(const Scene& scene, const Position& position, engine::Vec2 from,
                                 engine::Vec2 to, double radius_m, BallSet ignored);

}  // namespace ahead::coach
