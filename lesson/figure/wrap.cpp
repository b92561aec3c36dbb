#include "lesson/figure/wrap.h"

namespace ahead::lesson {

std::vector<std::string> wrapped(std::string_view words, std::size_t most_letters) {
  std::vector<std::string> lines(1);
  while (!words.empty()) {
    const std::string_view word = words.substr(0, words.find(' '));
    words.remove_prefix(std::min(words.size(), word.size() + 1));
    if (!lines.back().empty() && lines.back().size() + 1 + word.size() > most_letters) {
      lines.emplace_back();
    }
    if (!lines.back().empty()) lines.back() += ' ';
    lines.back() += word;
  }
  return lines;
}

std::string paragraph(Point at, double line_height, const std::vector<std::string>& lines,
                      std::string_view css_class) {
  std::string marks;
  for (const std::string& each : lines) {
    marks += text(at, each, css_class);
    at.y += line_height;
  }
  return marks;
}

}  // namespace ahead::lesson
