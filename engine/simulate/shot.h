#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "engine/equipment/table.h"
#include "engine/motion/ball_state.h"

/// The record of one shot: what happened to each ball and when.
namespace ahead::engine {

enum class EventKind {
  strike,
  ball_ball,
  group,
  cushion,
  bed,
  slide_to_roll,
  stop,
  pot,
  off_table
};

/// One thing that happened. Balls are indices into the list that was given to simulate().
struct Event {
  double t_s = 0;
  EventKind kind{};
  int ball = 0;               ///< the ball that it happened to; of two, the lower index
  int other = -1;             ///< the other ball of a ball-ball or group event, else -1
  int place = -1;             ///< index of the pocket (pot), else -1
  std::uint32_t members = 0;  ///< every ball of a group event, as bits; else 0
  Vec3 at;                    ///< centre of `ball`

  friend bool operator==(const Event&, const Event&) = default;
};

/// A stretch of one ball's path under one law, from `start` at `t0_s` until `t1_s`.
/// Where the ball is in between: motion/stretch.h.
struct Stretch {
  int ball = 0;
  Phase phase{};
  double t0_s = 0;
  double t1_s = 0;
  BallState start;

  friend bool operator==(const Stretch&, const Stretch&) = default;
};

/// How a ball ended.
struct Ending {
  Vec3 position;    ///< where it rests, or where it was when it left
  int pocket = -1;  ///< index into Table::pockets when potted, else -1
  bool off_table = false;

  [[nodiscard]] bool on_table() const { return pocket < 0 && !off_table; }
  friend bool operator==(const Ending&, const Ending&) = default;
};

struct Shot {
  std::vector<Ending> endings;     ///< one a ball
  std::vector<Event> events;       ///< in time order
  std::vector<Stretch> stretches;  ///< in the order in which they began
  double settled_s = 0;            ///< when everything has stopped, spin included
  double still_s = 0;              ///< when the last centre stopped
  /// The balls that were meeting without getting on when the engine gave up, as bits; 0 for a shot
  /// that ended by itself. The endings then say where the balls were.
  std::uint32_t stuck = 0;

  friend bool operator==(const Shot&, const Shot&) = default;
};

}  // namespace ahead::engine
