#pragma once

#include "coach/plan/plan.h"
#include "coach/plan/scene.h"
#include "coach/risk/tries.h"

/// The facts of a shot as meant: thickness, distances, how the cue ball travels.
namespace ahead::coach {

/// Everything of a ShotOption that follows from the strike played without error. Balls are counted
/// among those present, as in the layout of `position` (PlannedShot::before).
[[nodiscard]] ShotOption described(const Scene& scene, const Position& position,
                                   const Call& call);

}  // namespace ahead::coach
