#pragma once

#include <expected>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "formats/input_error.h"

/// The sentences of a lesson as a file that a teacher edits, `three-ahead.words/1`.
///
/// To say something in other words, write them as `mine` beside the sentence. They are used as long
/// as the facts that the sentence rests on stay as they were; when those change, the computed
/// sentence takes their place, `mine_for` holds the facts that `mine` was written for, and nothing
/// is lost. Delete `mine_for` after looking, and `mine` is taken again.
namespace ahead::formats {

struct TeacherSentence {
  std::string key;                              ///< "red-2.strike"
  std::string text;                             ///< as computed
  std::map<std::string, std::string> facts;     ///< what it says, by name
  std::string mine;                             ///< the teacher's words; empty when there are none
  std::map<std::string, std::string> mine_for;  ///< facts that `mine` was written for, when others

  friend bool operator==(const TeacherSentence&, const TeacherSentence&) = default;
};

struct TeacherWords {
  std::vector<TeacherSentence> sentences;
  std::vector<TeacherSentence> unused;  ///< with words of the teacher, no longer said

  friend bool operator==(const TeacherWords&, const TeacherWords&) = default;
};

[[nodiscard]] std::expected<TeacherWords, InputError> read_teacher_words(std::string_view text,
                                                                         std::string_view file);

[[nodiscard]] std::string write_teacher_words(const TeacherWords& words);

}  // namespace ahead::formats
