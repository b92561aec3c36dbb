#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "formats/workbench/capture_questions.h"
#include "formats/workbench/library.h"
#include "formats/workbench/questions.h"
#include "fuzz/round_trip.h"

// What any page may send to the server: every reader of a question either complains in one line, or
// gives a question that the coach can be asked.
namespace {

using namespace ahead;

void expect(bool holds, std::string_view what, std::string_view text) {
  if (!holds) fuzz::fail(what, text);
}

/// The question, when it is one; what the reader says of it otherwise is looked at.
template <class Question>
const Question* question_in(const formats::Asked<Question>& asked) {
  if (asked) return &*asked;
  const std::string line = formats::one_line(asked.error());
  expect(!line.empty() && line.find('\n') == std::string::npos, "not one line:", line);
  return nullptr;
}

/// Indices that the coach takes without asking.
void expect_pot(const coach::Layout& layout, int ball, int pocket, std::string_view text) {
  expect(ball >= 1 && ball < static_cast<int>(layout.balls.size()), "no such ball:", text);
  expect(pocket >= 0 && pocket < static_cast<int>(layout.table.pockets.size()),
         "no such pocket:", text);
}

void expect_strike(const coach::Layout& layout, const engine::Strike& strike,
                   std::string_view text) {
  expect(!engine::miscues(strike, layout.table.cue), "a miscue:", text);
  expect(strike.cue_speed_mps > 0, "no speed:", text);
}

void read_shot(std::string_view text) {
  const auto asked = formats::read_shot_question(text);
  const auto* question = question_in(asked);
  if (question == nullptr) return;
  const coach::LiveQuestion& live = question->live;
  if (live.pot) expect_pot(question->table.layout, live.pot->ball, live.pot->pocket, text);
  const auto* strike = std::get_if<engine::Strike>(&live.how);
  if (strike != nullptr) expect_strike(question->table.layout, *strike, text);
  expect(live.pot || strike != nullptr, "neither pot nor strike:", text);
  expect(live.tries >= 0 && live.tries <= formats::most_tries, "too many tries:", text);
}

void read_plan(std::string_view text) {
  const auto asked = formats::read_plan_question(text);
  const auto* question = question_in(asked);
  if (question == nullptr || !question->first) return;
  expect_pot(question->table.layout, question->first->ball, question->first->pocket, text);
  expect_strike(question->table.layout, question->first->strike, text);
}

void read_leave(std::string_view text) {
  const auto asked = formats::read_leave_question(text);
  const auto* question = question_in(asked);
  if (question == nullptr) return;
  expect_pot(question->table.layout, question->pot.ball, question->pot.pocket, text);
  if (!question->wanted) return;
  if (const auto* next = std::get_if<coach::NextPot>(&*question->wanted)) {
    expect_pot(question->table.layout, next->ball, next->pocket, text);
    expect(next->ball != question->pot.ball, "the same ball again:", text);
  }
}

void read_after(std::string_view text) {
  const auto asked = formats::read_after_question(text);
  const auto* question = question_in(asked);
  if (question == nullptr) return;
  expect(question->shot < question->plan.shots.size(), "no such shot:", text);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(bytes), size);
  read_shot(text);
  read_plan(text);
  read_leave(text);
  read_after(text);
  question_in(formats::read_table_question(text));
  question_in(formats::read_pots_question(text));
  question_in(formats::read_strike_question(text));
  question_in(formats::read_lesson_question(text));
  question_in(formats::read_capture_question(text));
  question_in(formats::read_drawing_question(text));
  using enum formats::LibraryKind;
  for (const auto kind : {table, player, layout, plan, result, words}) {
    question_in(formats::read_draft(kind, text));
  }
  question_in(formats::read_import(text, "a file"));
  return 0;
}
