#pragma once

#include "engine/equipment/ball.h"
#include "engine/equipment/surfaces.h"
#include "engine/geometry/box.h"
#include "engine/motion/motion.h"

/// A ball's centre from now until its phase ends: p + v t + a t^2, with a straight line marked.
///
/// A rolling ball, and a slide whose slip is along its velocity, go straight: contact with
/// something at rest is then a ray against a circle or a line, in distance, and time follows from
/// distance. Everything else goes through polynomials in time (geometry/roots.h).
namespace ahead::engine {

struct Path {
  Vec3 p;
  Vec3 v;
  Vec3 half_a;
  double duration_s = 0;
  double longest_way_m = 0;  ///< no point of the path lies further from its start
  Box box;                   ///< holds the path's plan view, if it is level
  bool moves = false;
  bool airborne = false;
  /// Straight, level and without turning back; then the three below hold.
  bool straight = false;
  Vec2 along;
  double speed_mps = 0;
  double gain_mps2 = 0;  ///< acceleration along the line
  double reach_m = 0;    ///< distance covered by the end of the phase
};

/// The path of a ball that is in `phase` and leaves it in `duration_s`.
[[nodiscard]] Path path_of(Phase phase, const BallState& state, const Ball& ball,
                           const Cloth& cloth, double duration_s);

/// The rest of a path from `t_s` on.
[[nodiscard]] Path rest_of(const Path& path, double t_s);

/// Time at which a straight path has covered `distance_m`. Requires 0 <= distance_m <= reach_m.
[[nodiscard]] double time_of(const Path& path, double distance_m);

}  // namespace ahead::engine
