#include "cli/plan_in_words.h"

#include <string_view>

#include <fmt/format.h>

#include "lesson/words/plan_words.h"
#include "lesson/words/shot_words.h"

namespace ahead::cli {
namespace {

constexpr std::size_t columns = 96;

/// Breaks a paragraph at spaces; later lines are indented by `indent`.
std::string wrapped(std::string_view text, std::size_t indent) {
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

}  // namespace

std::string plan_in_words(const coach::Plan& plan) {
  std::string out;
  for (const std::string& sentence : lesson::sentences(lesson::plan_words(plan))) {
    out += wrapped(sentence, 0);
  }
  for (std::size_t i = 0; i < plan.shots.size(); ++i) {
    const lesson::ShotWords words = lesson::shot_words(plan, i);
    out += fmt::format("\n{}. {}\n", i + 1, words.headline);
    for (const std::string& sentence : {words.strike, words.access, words.cue_ball, words.why,
                                        words.chance, words.risk, words.runner_up, words.caution}) {
      if (!sentence.empty()) out += wrapped(sentence, 3);
    }
  }
  return out;
}

}  // namespace ahead::cli
