#pragma once

namespace ahead::lesson {

/// What a drawing of a shot shows beyond the balls, the pocket and the paths. Drawn all at once
/// they hide each other; each is good on its own.
struct ShotLayers {
  bool aim = true;            ///< the line of aim
  bool construction = false;  ///< line of centres and tangent line as well
  bool contours = true;       ///< where the cue ball will probably stop
  bool rivals = false;        ///< the runner-up's paths
  bool zone = false;          ///< how good each place of the cue ball is for the next ball
  bool numbers = true;        ///< of this shot and the next
};

}  // namespace ahead::lesson
