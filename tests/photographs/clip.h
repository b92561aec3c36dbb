#pragma once

#include "engine/simulate/shot.h"
#include "tests/photographs/scene.h"

/// A shot on film: the engine plays it, and the clip shows a second before and after.
namespace ahead::photographs {

struct Clip {
  Scene scene;  ///< before the shot
  engine::Shot shot;
  double before_s = 1.0;  ///< of the clip when the cue ball is struck
  double length_s = 0;
  int rate = 25;  ///< frames a second
};

[[nodiscard]] Clip filmed_shot();

/// The scene at a moment of the clip. Potted balls are gone.
[[nodiscard]] Scene scene_at(const Clip& clip, double t_s);

}  // namespace ahead::photographs
