#pragma once

#include <optional>
#include <vector>

#include "coach/read/region.h"

/// The least push that opens another pocket for a problem ball.
///
/// The ball itself, or one that blocks it, is sent off softly in each of a ring of directions for
/// which there is room for the cue ball behind it, and played with the engine to rest, cushions and
/// other balls included; the shortest way that opens something is the answer. Where the cue ball
/// comes from and goes to is not asked. SI.
namespace ahead::coach {

struct Nudge {
  int ball = 0;            ///< the ball to move: the problem ball or one that blocks it
  engine::Vec2 contact;    ///< the cue ball's centre when it meets it
  double push_rad = 0;     ///< direction in which the ball is sent off
  double moves_m = 0;      ///< from where it lies to where it stops
  engine::Vec2 to;         ///< where it stops
  std::vector<int> opens;  ///< pockets that the problem ball then goes to as well
};

/// An opened pocket must be one that the cue ball can pot it into from this share of the bed.
inline constexpr double worth_opening = 0.08;

/// `shut` are the openings of the pockets that a push should open. Nothing when no push of half a
/// metre or less opens one of them.
[[nodiscard]] std::optional<Nudge> freeing_nudge(const engine::Playfield& field,
                                                 const Position& position, int ball,
                                                 const std::vector<Opening>& shut);

}  // namespace ahead::coach
