#pragma once

#include <span>

#include "engine/contact/strike.h"
#include "engine/equipment/table.h"
#include "engine/simulate/nose_line.h"
#include "engine/simulate/shot.h"

/// One shot with the full physics, from event to event.
///
/// Ball 0 is the cue ball and is struck; the others rest. Between events every path is known in
/// closed form, so the simulation looks for the earliest of phase end, meeting of balls, cushion or
/// jaw, pocket, landing and exit, changes the balls concerned, and looks again only for those.
/// Pure: the same input gives the same answer bit for bit, on any thread. It always ends.
namespace ahead::engine {

/// A table with its nose line prepared once, for many shots.
class Playfield {
 public:
  explicit Playfield(Table table);

  [[nodiscard]] const Table& table() const { return table_; }
  [[nodiscard]] const NoseLine& nose() const { return nose_; }
  [[nodiscard]] double cue_ball_reach_m() const { return cue_ball_reach_m_; }
  [[nodiscard]] double object_ball_reach_m() const { return object_ball_reach_m_; }

 private:
  Table table_;
  NoseLine nose_;
  double cue_ball_reach_m_;
  double object_ball_reach_m_;
};

/// Requires one to 32 balls, centres inside the playing area, no overlap, no miscue.
[[nodiscard]] Shot simulate(const Playfield& field, std::span<const Vec2> balls,
                            const Strike& strike);

/// The same from any state: balls may already move. For tests and for parts of a shot.
[[nodiscard]] Shot simulate_from(const Playfield& field, std::span<const BallState> balls);

}  // namespace ahead::engine
