#pragma once

#include <optional>

#include "engine/equipment/ball.h"
#include "engine/equipment/surfaces.h"
#include "engine/motion/ball_state.h"

/// The cue meets the cue ball.
///
/// `side` and `height` say where the tip touches the ball, as fractions of the ball's radius, seen
/// along the cue (right and up positive). Speed from the restitution form of the thin-cue model,
/// deflection from the end-mass model, net of nothing else; a downward part of the velocity meets
/// the bed at once by the landing rule.
///
/// Source: Kim, arXiv 2104.11232 (restitution form); Shepard (2001), end-mass model of deflection;
/// docs/physics.md, C1 to C6.
namespace ahead::engine {

struct Strike {
  double aim_rad = 0;        ///< where the cue points, seen from above, counter-clockwise from +x
  double elevation_rad = 0;  ///< how much the butt is raised, 0 to pi/2
  double side = 0;           ///< of the radius, right positive
  double height = 0;         ///< of the radius, up positive
  double cue_speed_mps = 0;  ///< of the cue just before it meets the ball

  friend bool operator==(const Strike&, const Strike&) = default;
};

/// Distance of the contact from the centre of the ball's face, as a fraction of the radius.
[[nodiscard]] double offset(const Strike& strike);

/// Whether the tip would slip: offset beyond the cue's limit.
[[nodiscard]] bool miscues(const Strike& strike, const Cue& cue);

/// Angle by which the cue ball leaves off the cue's line, rad; positive (counter-clockwise, to the
/// left) for side on the right.
[[nodiscard]] double deflection_rad(double side, const Ball& ball, const Cue& cue);

/// The cue ball just after the strike and its meeting with the bed.
/// Requires a strike that does not miscue.
[[nodiscard]] BallState struck(const BallState& before, const Strike& strike, const Ball& ball,
                               const Cue& cue, const Cloth& cloth);

}  // namespace ahead::engine
