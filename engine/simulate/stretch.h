#pragma once

#include "engine/simulate/shot.h"

/// Reading a recorded path at any time.
namespace ahead::engine {

/// The ball of index `ball`: 0 is the cue ball, every other one an object ball.
[[nodiscard]] inline const Ball& ball_of(const Table& table, int ball) {
  return ball == 0 ? table.cue_ball : table.object_ball;
}

/// The ball at time `t_s` of the shot. Requires stretch.t0_s <= t_s <= stretch.t1_s.
[[nodiscard]] BallState state_at(const Stretch& stretch, const Table& table, double t_s);

/// Every ball's path, in order: stretches of one ball.
[[nodiscard]] std::vector<Stretch> path_of(const Shot& shot, int ball);

}  // namespace ahead::engine
