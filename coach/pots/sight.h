#pragma once

#include <vector>

#include "coach/position.h"

/// Which balls can the cue ball meet first in a straight line?
///
/// Every direction that would touch a ball is looked along: cushions, jaws and other balls stop the
/// look. SI.
namespace ahead::coach {

struct Sight {
  int ball = 0;
  double seen = 0;         ///< share of its width that can be met, 0 (hidden) to 1
  bool left_edge = false;  ///< the finest cut on its left, as the player sees it
  bool right_edge = false;
  bool touching = false;       ///< the cue ball touches it
  std::vector<int> hidden_by;  ///< the balls that stand before it, nearest first

  [[nodiscard]] bool hidden() const { return seen == 0 && !touching; }
};

/// Nearer than this the cue ball touches a ball, m: no eye tells less (common practice, no source).
inline constexpr double touching_gap_m = 0.0003;

/// Of every ball present but the cue ball, in order.
[[nodiscard]] std::vector<Sight> sights_of(const engine::Playfield& field,
                                           const Position& position);

}  // namespace ahead::coach
