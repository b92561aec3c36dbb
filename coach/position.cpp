#include "coach/position.h"

#include <optional>

namespace ahead::coach {
namespace {

/// The engine's memory, kept by each thread from shot to shot: the coach plays thousands, and
/// without it most of their time goes into making it anew. It holds no more than the field's
/// address between shots, so answers do not depend on what was played before.
engine::Simulation& simulation_of(const engine::Playfield& field) {
  thread_local const engine::Playfield* of = nullptr;
  thread_local std::optional<engine::Simulation> kept;
  if (of != &field) {
    kept.emplace(field);
    of = &field;
  }
  return *kept;
}

}  // namespace

Position position_of(const Layout& layout) {
  Position position;
  for (std::size_t i = 0; i < layout.balls.size(); ++i) {
    position.at.push_back(layout.balls[i].at);
    position.present |= bit(static_cast<int>(i));
  }
  return position;
}

Played play(const engine::Playfield& field, const Position& position,
            const engine::Strike& strike) {
  Played played;
  std::vector<engine::Vec2> balls;
  balls.reserve(position.at.size());
  played.indices.reserve(position.at.size());
  for (std::size_t i = 0; i < position.at.size(); ++i) {
    if (!has(position.present, static_cast<int>(i))) continue;
    balls.push_back(position.at[i]);
    played.indices.push_back(static_cast<int>(i));
  }
  played.shot = simulation_of(field).play(balls, strike);
  return played;
}

Position after(const Position& before, const Played& played) {
  Position later = before;
  for (std::size_t i = 0; i < played.indices.size(); ++i) {
    const engine::Ending& ending = played.shot.endings[i];
    const int ball = played.indices[i];
    later.at[static_cast<std::size_t>(ball)] = engine::plan(ending.position);
    if (!ending.on_table()) later.present &= ~bit(ball);
  }
  return later;
}

BallSet moved(const Position& before, const Position& later) {
  BallSet set = 0;
  for (std::size_t i = 1; i < before.at.size(); ++i) {
    const int ball = static_cast<int>(i);
    if (has(later.present, ball) && !(before.at[i] == later.at[i])) set |= bit(ball);
  }
  return set;
}

}  // namespace ahead::coach
