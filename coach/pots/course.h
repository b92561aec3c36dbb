#pragma once

#include <compare>
#include <optional>
#include <span>
#include <vector>

#include "engine/equipment/table.h"
#include "engine/simulate/shot.h"

/// How a potted ball came to its pocket, read off a played shot.
namespace ahead::coach {

enum class Means {
  plant,        ///< the ball that is hit first, or the next, knocks this one in
  set,          ///< a plant of balls that touch
  cannon,       ///< the cue ball goes on from another ball to this one
  off_ball,     ///< this ball goes in off another
  double_off,   ///< off one or two cushions
  cross_double  ///< across the table into a middle pocket, off the opposite cushion
};

/// A pot that is not direct.
struct Indirect {
  Means means{};
  int first = -1;       ///< the ball that the cue ball meets first
  std::vector<int> by;  ///< plant, set, cannon: the balls before this one; off_ball: that ball
  int cushions = 0;     ///< that the ball meets before the pocket's own jaws

  friend auto operator<=>(const Indirect&, const Indirect&) = default;
};

/// Of `ball`, which the shot has potted. Balls are the shot's; `at` is where they lay. Nothing for
/// a direct pot and for what nobody would call a shot: more than two cushions or two balls, a
/// second meeting with the cue ball, a plant off a cushion. SI.
[[nodiscard]] std::optional<Indirect> indirect_of(const engine::Shot& shot, int ball,
                                                  const engine::Table& table,
                                                  std::span<const engine::Vec2> at);

}  // namespace ahead::coach
