#pragma once

#include "engine/geometry/vec.h"

/// Where a ball is and how it moves. SI: m, m/s, rad/s.
namespace ahead::engine {

struct BallState {
  Vec3 position;  ///< of the centre; z = R when the ball is on the bed
  Vec3 velocity;
  Vec3 spin;  ///< angular velocity

  friend bool operator==(const BallState&, const BallState&) = default;
};

/// The law that a ball obeys from one event to the next.
enum class Phase { rest, spinning, rolling, sliding, airborne };

}  // namespace ahead::engine
