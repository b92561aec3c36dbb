#include "formats/strike.h"

#include <numbers>
#include <string>

#include <gtest/gtest.h>

namespace ahead::formats {
namespace {

constexpr std::string_view stun =
    R"({
  "format": "three-ahead.strike/1",
  "aim_deg": 87.2,
  "elevation_deg": 3.0,
  "side": -0.2,
  "height": -0.3,
  "cue_speed": 1.8
}
)";

TEST(AStrike, IsReadIntoRadians) {
  const engine::Strike strike = read_strike(stun, "stun.json", engine::Cue{}).value();

  EXPECT_DOUBLE_EQ(strike.aim_rad, 87.2 * std::numbers::pi / 180);
  EXPECT_DOUBLE_EQ(strike.elevation_rad, 3.0 * std::numbers::pi / 180);
  EXPECT_EQ(strike.side, -0.2);
  EXPECT_EQ(strike.height, -0.3);
  EXPECT_EQ(strike.cue_speed_mps, 1.8);
}

TEST(AStrike, IsWrittenAsItWasRead) {
  EXPECT_EQ(write_strike(read_strike(stun, "f", engine::Cue{}).value()), stun);
}

TEST(AStrike, IsWrittenTheSameAgainWhateverItsDigits) {
  const engine::Strike strike{.aim_rad = 1.2345678901234,
                              .elevation_rad = 0.0712345678,
                              .side = 0.123456789,
                              .height = -0.00001,
                              .cue_speed_mps = 2.718281828};
  const std::string text = write_strike(strike);
  EXPECT_EQ(write_strike(read_strike(text, "f", engine::Cue{}).value()), text);
  EXPECT_EQ(text.find("-0.0,"), std::string::npos) << "no negative zero";
}

TEST(AStrike, MiscuesBeyondTheLimitOfItsCue) {
  const engine::Cue careful{.miscue_offset = 0.3};
  EXPECT_TRUE(read_strike(stun, "f", engine::Cue{}).has_value());
  const auto refused = read_strike(stun, "f", careful);
  ASSERT_FALSE(refused.has_value());
  EXPECT_NE(refused.error().wrong.find("0.061 beyond the tip's limit of 0.300"), std::string::npos)
      << refused.error().wrong;
}

}  // namespace
}  // namespace ahead::formats
