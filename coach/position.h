#pragma once

#include <span>
#include <vector>

#include "coach/layout.h"
#include "coach/rules/visit.h"
#include "engine/contact/strike.h"
#include "engine/simulate/simulate.h"

/// Balls on the way through a clearance: where each is, and which are still on the table.
namespace ahead::coach {

struct Position {
  std::vector<engine::Vec2> at;  ///< one a ball of the layout; the cue ball first
  BallSet present = 0;

  friend bool operator==(const Position&, const Position&) = default;
};

[[nodiscard]] Position position_of(const Layout& layout);

/// A simulated shot from a position: shot ball i is ball `indices[i]` of the layout.
struct Played {
  engine::Shot shot;
  std::vector<int> indices;
};

[[nodiscard]] Played play(const engine::Playfield& field, const Position& position,
                          const engine::Strike& strike);

/// The position that the shot left. A potted cue ball keeps its last place.
[[nodiscard]] Position after(const Position& before, const Played& played);

/// Balls other than the cue ball and those potted that came to rest elsewhere.
[[nodiscard]] BallSet moved(const Position& before, const Position& later);

}  // namespace ahead::coach
