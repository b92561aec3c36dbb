#include <expected>
#include <filesystem>
#include <string>
#include <string_view>

#include <gtest/gtest.h>

#include "formats/layout.h"
#include "formats/player.h"
#include "formats/strike.h"
#include "formats/table.h"
#include "formats/teacher_words.h"
#include "formats/trace.h"
#include "formats/workbench/library.h"
#include "formats/workbench/questions.h"
#include "tests/formats/played.h"
#include "tests/support/text_of.h"

// The files from which the fuzzers start, and those in which they found a fault: fuzz/corpus/.
namespace ahead::formats {
namespace {

std::expected<engine::Strike, InputError> read_house_strike(std::string_view text,
                                                            std::string_view file) {
  return read_strike(text, file, engine::Cue{});
}

/// With the digits of a table's file: a whole table that is a preset is written as the preset's
/// name, and presets have more digits.
std::expected<coach::Layout, InputError> read_own_layout(std::string_view text,
                                                         std::string_view file) {
  auto layout = read_layout(text, file);
  if (layout) layout->table = read_table(write_table(layout->table), file).value();
  return layout;
}

/// Every file of the folder is refused in one line, or read, written and read again as the same
/// value. At least one is read.
template <class Read, class Write>
void expect_round_trips(std::string_view kind, const Read& read, const Write& write) {
  const auto folder = std::filesystem::path(AHEAD_SOURCE_DIR) / "fuzz/corpus" / kind;
  int read_count = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    SCOPED_TRACE(entry.path().filename().string());
    const std::string given = test::text_of(entry.path());
    const auto first = read(given, "given");
    if (!first) {
      EXPECT_EQ(one_line(first.error()).find('\n'), std::string::npos);
      continue;
    }
    ++read_count;
    const std::string text = write(*first);
    const auto again = read(text, "again");
    ASSERT_TRUE(again.has_value()) << one_line(again.error());
    EXPECT_EQ(*again, *first);
    EXPECT_EQ(write(*again), text);
  }
  EXPECT_GT(read_count, 0);
}

std::expected<Trace, InputError> read_own_trace(std::string_view text, std::string_view file) {
  auto trace = read_trace(text, file);
  if (trace) {
    trace->layout.table = read_table(write_table(trace->layout.table), file).value();
  }
  return trace;
}

std::string write_played_trace(const Trace& trace) {
  return write_trace(trace, test::played(trace.layout, trace.strike));
}

/// How many of the readers of questions take the text.
int takers(std::string_view text) {
  const auto taken = [](const auto& asked) {
    if (asked) return 1;
    EXPECT_EQ(one_line(asked.error()).find('\n'), std::string::npos);
    return 0;
  };
  int count = taken(read_shot_question(text)) + taken(read_plan_question(text)) +
              taken(read_leave_question(text)) + taken(read_after_question(text)) +
              taken(read_table_question(text)) + taken(read_pots_question(text)) +
              taken(read_strike_question(text)) + taken(read_lesson_question(text)) +
              taken(read_import(text, "file"));
  using enum LibraryKind;
  for (const auto kind : {table, player, layout, plan, result, words}) {
    count += taken(read_draft(kind, text));
  }
  return count;
}

TEST(EveryQuestionOfTheFuzzer, IsOneThatTheServerTakes) {
  const auto folder = std::filesystem::path(AHEAD_SOURCE_DIR) / "fuzz/corpus/questions";
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    EXPECT_GT(takers(test::text_of(entry.path())), 0) << entry.path().filename();
  }
}

TEST(EveryFileOfAFuzzer, IsRefusedOrReadWrittenAndReadAgainTheSame) {
  expect_round_trips("layout", read_own_layout, write_layout);
  expect_round_trips("strike", read_house_strike, write_strike);
  expect_round_trips("player", read_player, write_player);
  expect_round_trips("table", read_table, write_table);
  expect_round_trips("trace", read_own_trace, write_played_trace);
  expect_round_trips("words", read_teacher_words, write_teacher_words);
}

}  // namespace
}  // namespace ahead::formats
