#include <filesystem>
#include <regex>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

#include <gtest/gtest.h>

#include "formats/text_file.h"
#include "tests/bad_input/cases.h"
#include "tests/support/run_program.h"
#include "tests/support/temporary_folder.h"
#include "tests/support/text_of.h"

// docs/errors.md and the messages of the program say the same: no message that the page does not
// list, no row that no faulty input brings about.
namespace ahead::test {
namespace {

struct Row {
  std::string words;
  std::regex pattern;
};

/// A row's two cells as one pattern; `<...>` matches anything.
std::string pattern_of(const std::string& wrong, const std::string& mend) {
  std::string pattern;
  bool inside = false;
  for (const char c : wrong + "; " + mend) {
    if (c == '<') pattern += ".*";
    inside = (inside || c == '<') && c != '>';
    if (inside || c == '>') continue;
    if (std::string(".[]{}()*+?^$|\\").contains(c)) pattern += '\\';
    pattern += c;
  }
  return "[^:]*: (at .*: )?" + pattern;
}

std::vector<Row> rows() {
  std::vector<Row> found;
  std::istringstream page(text_of(std::filesystem::path(AHEAD_SOURCE_DIR) / "docs/errors.md"));
  const std::regex shape("\\| `(.*)` \\| `(.*)` \\|");
  for (std::string line; std::getline(page, line);) {
    std::smatch cells;
    if (!std::regex_match(line, cells, shape)) continue;
    found.push_back({.words = line, .pattern = std::regex(pattern_of(cells[1], cells[2]))});
  }
  return found;
}

/// A plan with layouts that cannot have come of it.
std::vector<std::string> after_messages(const TemporaryFolder& folder) {
  const std::string examples = AHEAD_SOURCE_DIR "/examples/after/";
  const auto changed = [&](const std::string& name, const std::string& what,
                           const std::string& with) {
    std::string text = text_of(examples + "actual.json");
    text.replace(text.find(what), what.size(), with);
    EXPECT_FALSE(formats::write_file(folder / name, text));
    return std::string(folder / name);
  };
  const auto said_of = [&](const std::string& actual, const std::string& shot) {
    return run_program({"after", examples + "plan.json", "--actual", actual, "--shot", shot}).err;
  };
  return {said_of(examples + "actual.json", "9"),
          said_of(changed("table.json", "english-7ft", "english-7ft-match"), "1"),
          said_of(changed("ball.json", "yellow-1", "yellow-9"), "1")};
}

/// Messages about files, the command line and the machine, which no faulty document brings about.
std::vector<std::string> other_messages() {
  const TemporaryFolder folder;
  const auto line = [](const std::string& text) { return text.substr(0, text.find('\n')); };
  std::vector<std::string> messages;
  messages.push_back(line(run_program({"trial", folder / "."}).err));
  messages.push_back(formats::one_line(formats::read_file(folder / "none.json").error()));
  EXPECT_FALSE(formats::write_file(folder / "huge.json", std::string(5'000'000, ' ')));
  messages.push_back(formats::one_line(formats::read_file(folder / "huge.json").error()));
  messages.push_back(formats::one_line(formats::write_file(folder / "no/a.json", "").value()));
  messages.push_back(line(run_program({}).err));
  messages.push_back(line(run_program({"simulate"}).err));
  messages.push_back(line(run_program({"simulat"}).err));
  messages.push_back(line(run_program({"schema", "lay-out"}).err));
  messages.push_back(line(run_program({"player", "clubb"}).err));
  for (const std::string& message : after_messages(folder)) messages.push_back(line(message));
  messages.push_back(
      line(run_program({"capture", AHEAD_SOURCE_DIR "/README.md", "--pockets", "spot=1;2"}).err));
  messages.push_back(formats::one_line(formats::out_of_means("std::bad_alloc")));
  messages.push_back(formats::one_line(formats::missing_program("ffmpeg", "the animation")));
  messages.push_back(formats::one_line(formats::failed_program("ffmpeg", "a.mp4", "no room")));
  messages.push_back(
      formats::one_line(formats::other_comparison({.file = "a.json", .place = "/shot"}, "red-2")));
  const std::vector<std::string_view> balls{"cue", "red-1"};
  messages.push_back(formats::one_line(formats::stuck_shot("layout.json", balls, 0.1)));
  return messages;
}

std::vector<std::string> every_message() {
  std::vector<std::string> messages = other_messages();
  for (const BadInput& input : bad_inputs()) messages.push_back(input.expected);
  return messages;
}

TEST(TheErrorsPage, ListsEveryMessage) {
  const auto page = rows();
  for (const std::string& message : every_message()) {
    bool listed = false;
    for (const Row& row : page) listed = listed || std::regex_match(message, row.pattern);
    EXPECT_TRUE(listed) << message;
  }
}

TEST(TheErrorsPage, ListsNothingThatNoInputBringsAbout) {
  const auto messages = every_message();
  for (const Row& row : rows()) {
    bool reached = false;
    for (const std::string& message : messages) {
      reached = reached || std::regex_match(message, row.pattern);
    }
    EXPECT_TRUE(reached) << row.words;
  }
}

TEST(TheErrorsPage, HasARowForEachSentence) { EXPECT_GT(rows().size(), 40U); }

}  // namespace
}  // namespace ahead::test
