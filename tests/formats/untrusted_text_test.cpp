#include <string>

#include <gtest/gtest.h>

#include "coach/player/player.h"
#include "engine/equipment/presets.h"
#include "formats/layout.h"
#include "formats/player.h"
#include "formats/table.h"
#include "tests/formats/evening.h"

// Any bytes at all are either a valid value or one line of refusal: no crash, no endless work.
namespace ahead::formats {
namespace {

/// One message on one line of a length that a terminal shows.
void expect_one_line(const InputError& error) {
  const std::string line = one_line(error);
  EXPECT_EQ(line.find_first_of("\n\r"), std::string::npos);
  EXPECT_LT(line.size(), 700U);
}

std::string refusal_of(const std::string& text) {
  const auto layout = read_layout(text, "f");
  if (layout) return "";
  expect_one_line(layout.error());
  return one_line(layout.error());
}

TEST(UntrustedText, MayNestAsDeepAsItLikes) {
  EXPECT_NE(refusal_of(std::string(100'000, '[')).find("deeper than 32"), std::string::npos);
  EXPECT_NE(refusal_of(std::string(3'999'999, '[')).find("deeper than 32"), std::string::npos);
  std::string objects;
  for (int i = 0; i < 100'000; ++i) objects += R"({"a":)";
  EXPECT_NE(refusal_of(objects).find("deeper than 32"), std::string::npos);
}

TEST(UntrustedText, MayHaveManyKeysAndItems) {
  std::string keys = "{";
  for (int i = 0; i < 300'000; ++i) keys += '"' + std::to_string(i) + "\":1,";
  EXPECT_NE(refusal_of(keys + "\"z\":1}"), "");
  std::string items = R"({"format":"three-ahead.layout/1","balls":[)";
  for (int i = 0; i < 300'000; ++i) items += "{},";
  EXPECT_NE(refusal_of(items + "{}]}"), "");
}

TEST(UntrustedText, MayHaveLongKeysAndTexts) {
  const std::string longest(1'000'000, 'k');
  EXPECT_NE(refusal_of("{\"" + longest + "\": NaN}"), "");
  EXPECT_NE(refusal_of("{\"format\": \"three-ahead.layout/1\", \"" + longest + "\": 1}"), "");
  EXPECT_NE(refusal_of("{\"format\": \"" + longest + "\"}"), "");
  EXPECT_NE(refusal_of(longest), "");
  EXPECT_NE(refusal_of('"' + longest), "");
}

TEST(UntrustedText, MayBreakOffAnywhere) {
  const std::string text = test::evening_text();
  for (std::size_t size = 0; size + 2 < text.size(); ++size) {
    EXPECT_NE(refusal_of(text.substr(0, size)), "") << size;
  }
}

// Every byte replaced by each of some telling ones; what is still accepted must be a valid layout.
TEST(UntrustedText, MayHaveAnyByteWrong) {
  const std::string text = test::evening_text();
  for (std::size_t i = 0; i < text.size(); ++i) {
    for (const char c : {'\0', '"', '\\', '{', ']', ',', '-', '9', 'e', '\n', '\x7F', '\xFF'}) {
      std::string changed = text;
      changed[i] = c;
      const auto layout = read_layout(changed, "f");
      if (!layout) {
        expect_one_line(layout.error());
      } else {
        EXPECT_TRUE(read_layout(write_layout(*layout), "f").has_value()) << changed;
      }
    }
  }
}

TEST(UntrustedText, MayBeAPlayerOrATableWithAnyByteWrong) {
  const std::string player = write_player(coach::player_preset("club").value());
  const std::string table = write_table(engine::table_preset("english-7ft").value());
  for (const char c : {'"', '}', '9', '\x80'}) {
    for (std::size_t i = 0; i < player.size(); ++i) {
      std::string changed = player;
      changed[i] = c;
      const auto result = read_player(changed, "f");
      if (!result) expect_one_line(result.error());
    }
    for (std::size_t i = 0; i < table.size(); i += 3) {
      std::string changed = table;
      changed[i] = c;
      const auto result = read_table(changed, "f");
      if (!result) expect_one_line(result.error());
    }
  }
}

// The name of a file is untrusted too.
TEST(UntrustedText, MayComeFromAFileWithAStrangeName) {
  const auto error = read_layout("", "two\nlines").error();
  EXPECT_EQ(one_line(error),
            "two?lines: is empty; give a JSON document, as in the folder examples");
}

}  // namespace
}  // namespace ahead::formats
