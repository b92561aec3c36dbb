#pragma once

#include "coach/plan/plan.h"
#include "lesson/told/fact.h"
#include "lesson/told/voice.h"

namespace ahead::lesson {

/// What is known of a planned shot, for the grammar. Every fact names the field of plan.json that
/// it is read off, or from which it is worked out. Requires shot < plan.shots.size().
[[nodiscard]] Known shot_known(const coach::Plan& plan, std::size_t shot, Units units);

}  // namespace ahead::lesson
