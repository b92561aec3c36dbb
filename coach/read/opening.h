#pragma once

#include <optional>
#include <vector>

#include "coach/position.h"
#include "coach/pots/gate.h"

/// Does this ball go into this pocket as the balls stand, and if not, why not?
///
/// The gate of the bare table (pots/gate.h) says what the jaws let in; what other balls hide of it
/// follows from geometry, since a rolling ball goes straight: a ball at distance d shuts the
/// directions within asin(2R / d) of its own. What is left is then played with the engine, so a
/// way that is stated to be open was seen to drop without touching anything.
/// The cue ball hides nothing: it is what moves first. SI.
namespace ahead::coach {

/// A ball in the way, and how far it must go aside for the ball to pass on the line of the gate
/// that is nearest to being clear.
struct Blocker {
  int ball = 0;
  double overlap_m = 0;

  friend bool operator==(const Blocker&, const Blocker&) = default;
};

enum class Shut {
  blocked,  ///< other balls leave no direction that drops
  angle,    ///< no direction drops even on the bare table: the jaws close the mouth
  cushion   ///< the same, with the ball tight on a cushion
};

struct Opening {
  int pocket = 0;
  double to_pocket_m = 0;         ///< to the pocket's centre
  PacedGates alone;               ///< on the bare table
  PacedGates standing;            ///< past every ball, as they stand
  std::optional<Shut> shut;       ///< why it does not go; nothing when it does
  std::vector<Blocker> blockers;  ///< when blocked, the worst first

  [[nodiscard]] bool goes() const { return !shut; }
  /// The gate by which the ball is aimed: at medium pace, or the one that there is.
  [[nodiscard]] Gate gate() const;
};

/// Nearer to a cushion than this a ball is tight on it, m (common practice, no source).
inline constexpr double tight_m = 0.010;

/// Room between a ball at `at` and the nearest cushion, m.
[[nodiscard]] double cushion_room_m(const engine::Playfield& field, engine::Vec2 at);

[[nodiscard]] Opening opening_into(const engine::Playfield& field, const Position& position,
                                   int ball, int pocket);

/// Into each pocket, in the table's order.
[[nodiscard]] std::vector<Opening> openings_of(const engine::Playfield& field,
                                               const Position& position, int ball);

/// The widest part of a bare table's gate into `pocket` that no other ball hides, by geometry
/// alone; nothing when they hide all of it.
[[nodiscard]] std::optional<Gate> unhidden(const engine::Table& table, const Position& position,
                                           int ball, int pocket, const Gate& alone);

}  // namespace ahead::coach
