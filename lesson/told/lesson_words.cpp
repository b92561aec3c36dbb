#include "lesson/told/lesson_words.h"

#include <array>

#include <fmt/format.h>

#include "lesson/told/clearance_known.h"
#include "lesson/told/glossary.h"
#include "lesson/told/shot_known.h"
#include "lesson/told/speaker.h"
#include "lesson/words/names.h"

namespace ahead::lesson {
namespace {

/// In the order in which a coach says it.
constexpr std::array<std::string_view, 11> shot_topics{"task", "caution", "strike", "access",
                                                       "path", "leave",   "room",   "chance",
                                                       "risk", "then",    "other"};
constexpr std::array<std::string_view, 3> before_problems{"title", "colour", "order"};
constexpr std::array<std::string_view, 3> after_problems{"key", "whole", "honesty"};

void tell(Speaker& speaker, std::string_view about, std::span<const std::string_view> topics,
          const Known& known, std::vector<Sentence>& sentences) {
  for (const std::string_view topic : topics) {
    if (auto sentence = speaker.say(about, topic, known)) sentences.push_back(*std::move(sentence));
  }
}

}  // namespace

std::string_view LessonWords::text_of(const std::vector<Sentence>& sentences,
                                      std::string_view topic) {
  for (const Sentence& each : sentences) {
    if (std::string_view(each.key).substr(each.key.find('.') + 1) == topic) return each.text;
  }
  return {};
}

std::string LessonWords::heading_of(const coach::Plan& plan, std::size_t shot) const {
  const coach::PlannedShot& planned = plan.shots[shot];
  const std::string& id = planned.before.balls[static_cast<std::size_t>(planned.best.ball)].id;
  return in_vocabulary(fmt::format("{} to {}", capitalised(ball_name(id)),
                                   pocket_name(planned.before.table, planned.best.pocket)),
                       voice.vocabulary);
}

std::string LessonWords::all_of(const std::vector<Sentence>& sentences) {
  std::string all;
  for (const Sentence& each : sentences) {
    if (!all.empty()) all += all.back() == '.' ? " " : ". ";
    all += each.text;
  }
  return all;
}

LessonWords lesson_words(const coach::Plan& plan, const coach::Reading& reading,
                         const Voice& voice) {
  LessonWords words{.voice = voice};
  Speaker speaker(house_grammar(), voice);

  Known whole = clearance_known(plan, voice.units);
  if (plan.weighed.size() != 2) {
    // Nothing was chosen, so nothing is said of the choice.
    whole.facts.erase("group odds");
  }
  tell(speaker, "clearance", before_problems, whole, words.clearance);
  const std::vector<ProblemKnown> problems = problems_known(plan, reading);
  for (const ProblemKnown& problem : problems) {
    const std::array<std::string_view, 1> topic{"problem"};
    tell(speaker, problem.ball, topic, problem.known, words.clearance);
  }
  if (problems.empty()) {
    const std::array<std::string_view, 1> topic{"no problems"};
    tell(speaker, "clearance", topic, whole, words.clearance);
  }
  tell(speaker, "clearance", after_problems, whole, words.clearance);

  for (std::size_t i = 0; i < plan.shots.size(); ++i) {
    const coach::PlannedShot& shot = plan.shots[i];
    const std::string& ball = shot.before.balls[static_cast<std::size_t>(shot.best.ball)].id;
    tell(speaker, ball, shot_topics, shot_known(plan, i, voice.units), words.shots.emplace_back());
  }
  return words;
}

}  // namespace ahead::lesson
