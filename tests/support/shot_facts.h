#pragma once

#include <string>
#include <vector>

#include "engine/simulate/simulate.h"

/// What a recorded shot says when it is read back: energy, overlaps, directions.
namespace ahead::test {

/// Kinetic plus potential energy of all the balls, J, just after each moment at which a path began
/// or ended. Balls that have left count nothing.
struct EnergyAt {
  double t_s = 0;
  double energy_j = 0;
};
[[nodiscard]] std::vector<EnergyAt> energies(const engine::Shot& shot, const engine::Table& table);

/// Largest rise from one moment to the next, J. Zero or negative when energy only falls.
[[nodiscard]] double largest_rise_j(const std::vector<EnergyAt>& energies);

/// How deep anything sinks into anything else, m, at the events and at moments between them.
struct Overlaps {
  double balls_m = 0;    ///< ball in ball
  double cushion_m = 0;  ///< ball on the bed in the nose line
};
[[nodiscard]] Overlaps deepest_overlaps(const engine::Shot& shot, const engine::Playfield& field,
                                        const std::vector<engine::Vec2>& start);

/// Number of events of one kind.
[[nodiscard]] int count_of(const engine::Shot& shot, engine::EventKind kind);

/// The state of `ball` just after the path that holds at `t_s` begins, at `t_s`. Requires that the
/// ball moves then.
[[nodiscard]] engine::BallState moving_state(const engine::Shot& shot, const engine::Table& table,
                                             int ball, double t_s);

/// A shot in words that can be pasted into a test.
[[nodiscard]] std::string in_code(const std::vector<engine::Vec2>& balls,
                                  const engine::Strike& strike);

}  // namespace ahead::test
