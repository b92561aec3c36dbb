#pragma once

#include <string>

#include "coach/plan/plan.h"
#include "lesson/told/lesson_words.h"

namespace ahead::lesson {

/// The words of a lesson as plain text, shot by shot.
[[nodiscard]] std::string words_text(const coach::Plan& plan, const LessonWords& words);

}  // namespace ahead::lesson
