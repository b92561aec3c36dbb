#include "engine/simulate/stretch.h"

#include "engine/motion/motion.h"

namespace ahead::engine {

BallState state_at(const Stretch& stretch, const Table& table, double t_s) {
  return advance(stretch.phase, stretch.start, ball_of(table, stretch.ball), table.cloth,
                 t_s - stretch.t0_s);
}

std::vector<Stretch> path_of(const Shot& shot, int ball) {
  std::vector<Stretch> path;
  for (const Stretch& stretch : shot.stretches) {
    if (stretch.ball == ball) path.push_back(stretch);
  }
  return path;
}

}  // namespace ahead::engine
