#pragma once

#include <memory>
#include <span>

#include "engine/contact/strike.h"
#include "engine/simulate/playfield.h"
#include "engine/simulate/shot.h"

/// One shot with the full physics, from event to event.
///
/// Ball 0 is the cue ball and is struck; the others rest. Between events every path is known in
/// closed form, so the simulation looks for the earliest of phase end, meeting of balls, cushion or
/// jaw, pocket, landing and exit, changes the balls concerned, and looks again only for those.
/// Pure: the same input gives the same answer bit for bit, on any thread. It always ends; a shot
/// that does not get on (a thousand events within a millisecond) is given up, and Shot::stuck names
/// its balls.
namespace ahead::engine {

/// Requires one to 32 balls, centres inside the playing area, no overlap, no miscue.
[[nodiscard]] Shot simulate(const Playfield& field, std::span<const Vec2> balls,
                            const Strike& strike);

/// The same from any state: balls may already move, and overlap. For tests and for parts of a shot.
/// Requires finite numbers whose squares are finite.
[[nodiscard]] Shot simulate_from(const Playfield& field, std::span<const BallState> balls);

/// Many shots one after another: the answers of simulate(), in memory that is used again. After the
/// first few shots nothing is allocated. One for each thread.
class Simulation {
 public:
  explicit Simulation(const Playfield& field);
  ~Simulation();

  /// The shot stays valid until the next one.
  const Shot& play(std::span<const Vec2> balls, const Strike& strike);
  const Shot& play_from(std::span<const BallState> balls);

 private:
  class Play;
  std::unique_ptr<Play> play_;
};

}  // namespace ahead::engine
