#include "lesson/told/lesson_words.h"

#include <array>

#include <fmt/format.h>

#include "lesson/told/clearance_known.h"
#include "lesson/told/glossary.h"
#include "lesson/told/result_known.h"
#include "lesson/told/shot_known.h"
#include "lesson/told/speaker.h"
#include "lesson/words/names.h"

namespace ahead::lesson {
namespace {

/// In the order in which a coach says it.
constexpr std::array<std::string_view, 11> shot_topics{"task", "caution", "strike", "access",
                                                       "path", "leave",   "room",   "chance",
                                                       "risk", "then",    "other"};
constexpr std::array<std::string_view, 2> result_topics{"came", "slip"};
constexpr std::array<std::string_view, 3> before_problems{"title", "colour", "order"};
constexpr std::array<std::string_view, 3> after_problems{"key", "whole", "honesty"};

void tell(Speaker& speaker, std::string_view about, std::span<const std::string_view> topics,
          const Known& known, std::vector<Sentence>& sentences) {
  for (const std::string_view topic : topics) {
    if (auto sentence = speaker.say(about, topic, known)) sentences.push_back(*std::move(sentence));
  }
}

void tell_clearance(Speaker& speaker, const coach::Plan& plan,
                    std::span<const coach::BallReading> balls, LessonWords& words) {
  Known whole = clearance_known(plan, words.voice.units);
  if (plan.weighed.size() != 2) {
    // Nothing was chosen, so nothing is said of the choice.
    whole.facts.erase("group odds");
  }
  tell(speaker, "clearance", before_problems, whole, words.clearance);
  const std::vector<ProblemKnown> problems = problems_known(plan, balls);
  for (const ProblemKnown& problem : problems) {
    const std::array<std::string_view, 1> topic{"problem"};
    tell(speaker, problem.ball, topic, problem.known, words.clearance);
  }
  if (problems.empty()) {
    const std::array<std::string_view, 1> topic{"no problems"};
    tell(speaker, "clearance", topic, whole, words.clearance);
  }
  tell(speaker, "clearance", after_problems, whole, words.clearance);
}

/// Shot `index` as `plan` has it, and what came of it.
void tell_shot(Speaker& speaker, const coach::Plan& plan, std::size_t index,
               const std::optional<coach::ShotResult>& came, LessonWords& words) {
  const coach::PlannedShot& shot = plan.shots[index];
  const std::string& ball = shot.before.balls[static_cast<std::size_t>(shot.best.ball)].id;
  std::vector<Sentence>& sentences = words.shots.emplace_back();
  tell(speaker, ball, shot_topics, shot_known(plan, index, words.voice.units), sentences);
  words.came.push_back(came);
  if (came) tell(speaker, ball, result_topics, result_known(*came, words.voice.units), sentences);
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

LessonWords lesson_words(const coach::Plan& plan, std::span<const coach::BallReading> balls,
                         const Voice& voice) {
  LessonWords words{.voice = voice};
  Speaker speaker(house_grammar(), voice);
  tell_clearance(speaker, plan, balls, words);
  for (std::size_t i = 0; i < plan.shots.size(); ++i) {
    tell_shot(speaker, plan, i, std::nullopt, words);
  }
  return words;
}

LessonWords lesson_words(const coach::AsPlayed& played, std::span<const coach::BallReading> balls,
                         const Voice& voice) {
  LessonWords words{.voice = voice};
  Speaker speaker(house_grammar(), voice);
  tell_clearance(speaker, played.plan, balls, words);
  for (std::size_t i = 0; i < played.meant.size(); ++i) {
    const auto& [plan, shot] = played.meant[i];
    tell_shot(speaker, played.plans[plan], shot, played.came[i], words);
  }
  return words;
}

}  // namespace ahead::lesson
