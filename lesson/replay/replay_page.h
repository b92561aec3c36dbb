#pragma once

#include <string>

#include "coach/plan/plan.h"
#include "lesson/house_look.h"
#include "lesson/told/lesson_words.h"

namespace ahead::lesson {

/// The clearance to be played again in a browser: one file of HTML that needs no network and is
/// small enough to send. Each shot can be played, stopped and gone through; lines and rings can be
/// switched; everything works from the keyboard.
[[nodiscard]] std::string replay_page(const coach::Plan& plan, const LessonWords& words,
                                      const Look& look);

}  // namespace ahead::lesson
