#pragma once

#include <string>

#include "coach/plan/plan.h"
#include "lesson/house_look.h"

namespace ahead::lesson {

/// The lesson as one page that needs nothing else: no network, no other file.
///
/// Without scripts it is a document from top to bottom, and so it prints; with them one shot shows
/// at a time, chosen from the strip or with the arrow keys.
[[nodiscard]] std::string plan_page(const coach::Plan& plan, const Look& look);

}  // namespace ahead::lesson
