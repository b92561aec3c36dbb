#pragma once

#include "coach/after/played.h"
#include "lesson/told/fact.h"
#include "lesson/told/voice.h"

namespace ahead::lesson {

/// What is known of how a shot came off, for the grammar. Every fact names the field of after.json
/// that it is read off or worked out from.
[[nodiscard]] Known result_known(const coach::ShotResult& result, Units units);

}  // namespace ahead::lesson
