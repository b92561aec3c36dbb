#pragma once

#include <string>

#include "coach/plan/plan.h"
#include "lesson/film/timeline.h"
#include "lesson/told/lesson_words.h"

/// The animation for those who read it or hear it.
namespace ahead::lesson {

/// WebVTT: a cue for each part that has words, a note a shot. Source: W3C, "WebVTT: The Web Video
/// Text Tracks Format".
[[nodiscard]] std::string captions(const Timeline& timeline);

/// Everything that is said, with the time at which it begins.
[[nodiscard]] std::string transcript(const coach::Plan& plan, const Timeline& timeline,
                                     const LessonWords& words);

/// What can only be seen: where the balls lie, what is drawn, and what each shot looks like.
[[nodiscard]] std::string audio_description(const coach::Plan& plan, const Timeline& timeline,
                                            const LessonWords& words);

/// "00:01:02.500".
[[nodiscard]] std::string clock_words(double t_s);

}  // namespace ahead::lesson
