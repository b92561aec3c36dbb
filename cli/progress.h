#pragma once

#include "coach/plan/plan_clearance.h"

namespace ahead::cli {

/// A line that is written over itself while the coach works, for a person who watches.
void show_progress(const coach::Progress& progress);

}  // namespace ahead::cli
