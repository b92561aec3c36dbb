#pragma once

#include <span>
#include <vector>

#include "engine/equipment/table.h"
#include "engine/motion/ball_state.h"
#include "engine/simulate/shot.h"

/// A whole shot by numerical integration: docs/physics.md in the hands of a general-purpose solver.
///
/// The equations of motion of all the balls are integrated together (Boost.Odeint, Dormand-Prince
/// with dense output). Events are moments at which a function of the state falls through zero:
/// looked for at sample points of every step, between them by minimising where a gap dips, and
/// found by TOMS 748. Nothing is known in advance and no closed form is used; only the plain data
/// of balls, table and events is shared with the engine.
///
/// Slow and simple on purpose. Left out: groups of touching balls (the shot is given up and says
/// so) and balls that leave the table.
namespace ahead::independent {

struct Played {
  std::vector<engine::Event> events;    ///< in time order, without place and members
  std::vector<engine::BallState> ends;  ///< of every ball, potted ones as they dropped
  bool given_up = false;                ///< a group of touching balls, or more than 40 events
};

/// Ball 0 is the cue ball.
[[nodiscard]] Played play(const engine::Table& table, std::span<const engine::BallState> balls);

}  // namespace ahead::independent
