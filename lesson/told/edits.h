#pragma once

#include <string>
#include <vector>

#include "formats/teacher_words.h"
#include "lesson/told/lesson_words.h"

/// The teacher's own words among the computed ones.
namespace ahead::lesson {

struct Edited {
  LessonWords words;                 ///< with the teacher's words where they still hold
  formats::TeacherWords file;        ///< to be kept for the next time
  std::vector<std::string> flagged;  ///< keys whose facts have changed since they were edited
  std::vector<std::string> unused;   ///< keys with the teacher's words that are no longer said
};

/// `before` is the file as the teacher left it; empty the first time.
[[nodiscard]] Edited with_edits(LessonWords words, const formats::TeacherWords& before);

}  // namespace ahead::lesson
