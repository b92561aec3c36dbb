#pragma once

#include <vector>

#include "cli/capture_given.h"
#include "cli/verb.h"

/// `ahead capture` of a clip.
namespace ahead::cli {

/// `shot`, unless null, is drawn onto the still stretch that shows where it begins.
[[nodiscard]] Outcome capture_clip(const CaptureOptions& options, const engine::Table& table,
                                   const std::vector<capture::SeenPoint>& points,
                                   const coach::PlannedShot* shot);

}  // namespace ahead::cli
