#include "formats/trace.h"

#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "formats/strike.h"
#include "tests/formats/played.h"
#include "tests/support/slot.h"

namespace ahead::formats {
namespace {

using nlohmann::json;

/// The strike as a file gives it: to six decimals.
engine::Strike strike_from_a_file() {
  return read_strike(write_strike(test::first_strike()), "f", engine::Cue{}).value();
}

class AWrittenTrace : public ::testing::Test {
 protected:
  const Trace given{.layout = test::evening(), .strike = strike_from_a_file()};
  const engine::Shot shot = test::played(given.layout, given.strike);
  const std::string text = write_trace(given, shot);
};

TEST_F(AWrittenTrace, IsReadAgainAsTheSameLayoutAndStrike) {
  const auto again = read_trace(text, "trace.json");
  ASSERT_TRUE(again.has_value()) << one_line(again.error());
  EXPECT_EQ(*again, given);
}

TEST_F(AWrittenTrace, GivesTheSameShotToTheLastDigit) {
  const Trace again = read_trace(text, "trace.json").value();
  EXPECT_EQ(test::played(again.layout, again.strike), shot);
  EXPECT_EQ(first_difference(text, shot), std::nullopt);
}

TEST_F(AWrittenTrace, TellsFromWhichEventOnAnotherShotDiffers) {
  engine::Shot other = shot;
  other.events[3].at.x += 1e-15;
  EXPECT_EQ(first_difference(text, other), 3U);

  other = shot;
  other.events.pop_back();
  EXPECT_EQ(first_difference(text, other), other.events.size());
}

TEST_F(AWrittenTrace, NamesEveryBallOfAnEvent) {
  engine::Shot crowded = shot;
  crowded.events[1].members = 0b1011;
  const json balls = json::parse(write_trace(given, crowded))["events"][1]["balls"];
  for (const int i : {0, 1, 3}) {
    const std::string& id = given.layout.balls[static_cast<std::size_t>(i)].id;
    EXPECT_NE(std::find(balls.begin(), balls.end(), id), balls.end()) << id;
  }
}

TEST_F(AWrittenTrace, NamesTheBallsOfAShotThatWasGivenUp) {
  EXPECT_TRUE(json::parse(text)["stuck"].empty());
  engine::Shot given_up = shot;
  given_up.stuck = 0b101;
  EXPECT_EQ(json::parse(write_trace(given, given_up))["stuck"],
            (json{given.layout.balls[0].id, given.layout.balls[2].id}));
}

TEST_F(AWrittenTrace, IsRefusedWithThePlaceInTheTrace) {
  json changed = json::parse(text);
  changed["layout"]["balls"][1]["at"] = changed["layout"]["balls"][0]["at"];
  const auto again = read_trace(changed.dump(), "trace.json");
  ASSERT_FALSE(again.has_value());
  EXPECT_EQ(again.error().place, "/layout/balls/1/at");
}

}  // namespace
}  // namespace ahead::formats
