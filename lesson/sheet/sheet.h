#pragma once

#include <string>

#include "coach/plan/plan.h"
#include "lesson/house_look.h"
#include "lesson/told/lesson_words.h"

/// The lesson on paper: the clearance on the first page with where to put the balls, then two shots
/// a page, each with a box in which the pupil's tries are scored.
namespace ahead::lesson {

enum class Paper { a4, letter };

/// A PDF with embedded fonts, text that can be searched, and headings, paragraphs and figures
/// tagged. The same input, fonts and libraries give the same bytes.
[[nodiscard]] std::string sheet(const coach::Plan& plan, const LessonWords& words, const Look& look,
                                Paper paper);

}  // namespace ahead::lesson
