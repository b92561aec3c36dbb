#include "cli/paragraph.h"

#include <algorithm>

namespace ahead::cli {

std::string paragraph(std::string_view text, std::size_t indent) {
  constexpr std::size_t columns = 96;
  std::string out(indent, ' ');
  std::size_t at = indent;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    if (at > indent && at + 1 + word.size() > columns) {
      out += '\n' + std::string(indent, ' ');
      at = indent;
    } else if (at > indent) {
      out += ' ';
      ++at;
    }
    out += word;
    at += word.size();
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return out + '\n';
}

}  // namespace ahead::cli
