#pragma once

#include <span>
#include <vector>

#include "coach/pots/way.h"

/// What a glance at the table tells, without playing: can a ball be potted from here, and how
/// easily does a ball that has been moved go?
///
/// Straight lines past the other balls, the width of the pocket's gate, and the spread of the
/// player's aim; a few microseconds for a whole table. Guides for choosing, never shown.
namespace ahead::coach {

class Glance {
 public:
  /// Measures the gates of all pockets of the bare table from a grid of places: some ten
  /// milliseconds.
  Glance(const engine::Playfield& field, const Player& player);

  /// The ease of `ball` at its place in `position`: the chance that a clearance deals with it,
  /// given that it deals with the rest. It is that of its best pot from a fair place of the cue
  /// ball, half a metre away at a half-ball cut. Balls that will have gone by then do not block.
  [[nodiscard]] double ease(const Scene& scene, const Position& position, int ball) const;

  /// The chance of the best pot from where the cue ball lies that the player can reach, of the
  /// balls of `on`. `ways` are measured ways, for the balls but `shifted`; for those the bare
  /// table's gates serve.
  [[nodiscard]] double best_pot(const Scene& scene, const Position& position, BallSet on,
                                std::span<const Way> ways, BallSet shifted) const;

 private:
  [[nodiscard]] double half_width_rad(engine::Vec2 at, std::size_t pocket) const;
  struct Line;
  [[nodiscard]] Line line_along(const Scene& scene, const Position& position, int ball,
                                engine::Vec2 along, double half_rad) const;

  int columns_ = 0;
  int rows_ = 0;
  engine::Vec2 first_;
  engine::Vec2 spacing_;
  double sigma_rad_ = 0;             ///< of the cue ball's direction
  std::vector<double> half_widths_;  ///< [place][pocket]; 0 where nothing drops
};

}  // namespace ahead::coach
