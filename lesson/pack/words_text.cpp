#include "lesson/pack/words_text.h"

#include <string_view>

#include <fmt/format.h>

#include "lesson/figure/wrap.h"

namespace ahead::lesson {
namespace {

std::string block(std::string_view words, std::size_t indent) {
  constexpr std::size_t columns = 96;
  std::string text;
  for (const std::string& line : wrapped(words, columns - indent)) {
    text += std::string(indent, ' ') + line + '\n';
  }
  return text;
}

}  // namespace

std::string words_text(const coach::Plan& plan, const LessonWords& words) {
  std::string text;
  for (const Sentence& each : words.clearance) text += block(each.text, 0);
  for (std::size_t i = 0; i < words.shots.size(); ++i) {
    text += fmt::format("\n{}. {}\n", i + 1, words.heading_of(plan, i));
    for (const Sentence& each : words.shots[i]) text += block(each.text, 3);
  }
  return text;
}

}  // namespace ahead::lesson
