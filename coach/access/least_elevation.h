#pragma once

#include "coach/access/behind.h"
#include "coach/access/cue_line.h"

/// How far the butt must be raised so that the cue clears the cushions and the balls behind the cue
/// ball, and which of them asks for it. Where the hand goes is another matter (bridge.h).
namespace ahead::coach {

enum class InTheWay { nothing, ball, cushion, rail };

struct Clearance {
  double elevation_rad = 0;  ///< least, 0 to pi/2, or never_rad
  InTheWay by = InTheWay::nothing;
  int ball = 0;  ///< of the layout, when it is a ball
};

[[nodiscard]] Clearance least_elevation(const Behind& behind, const CueLine& line,
                                        double object_ball_radius_m);

}  // namespace ahead::coach
