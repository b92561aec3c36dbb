#include "cli/plan_in_words.h"

#include <fmt/format.h>

#include "cli/paragraph.h"
#include "lesson/words/plan_words.h"
#include "lesson/words/shot_words.h"

namespace ahead::cli {

std::string plan_in_words(const coach::Plan& plan) {
  std::string out;
  for (const std::string& sentence : lesson::sentences(lesson::plan_words(plan))) {
    out += paragraph(sentence, 0);
  }
  for (std::size_t i = 0; i < plan.shots.size(); ++i) {
    const lesson::ShotWords words = lesson::shot_words(plan, i);
    out += fmt::format("\n{}. {}\n", i + 1, words.headline);
    for (const std::string& sentence : {words.strike, words.access, words.cue_ball, words.why,
                                        words.chance, words.risk, words.runner_up, words.caution}) {
      if (!sentence.empty()) out += paragraph(sentence, 3);
    }
  }
  return out;
}

}  // namespace ahead::cli
