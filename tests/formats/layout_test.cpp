#include "formats/layout.h"

#include <string>

#include <gtest/gtest.h>

#include "engine/equipment/presets.h"
#include "formats/table.h"
#include "tests/formats/evening.h"

namespace ahead::formats {
namespace {

using coach::Colour;
using test::evening_text;
using test::replaced;

coach::Layout evening() { return read_layout(evening_text(), "evening.json").value(); }

/// What a reader says, or nothing.
std::string wrong_with(const std::string& text) {
  const auto layout = read_layout(text, "f");
  return layout ? "" : one_line(layout.error());
}

TEST(ALayout, IsReadIntoMetres) {
  const coach::Layout layout = evening();

  EXPECT_EQ(layout.table, engine::table_preset("english-7ft"));
  EXPECT_EQ(layout.rules, coach::Rules::international);
  EXPECT_EQ(layout.to_play, coach::ToPlay::red);
  ASSERT_EQ(layout.balls.size(), 5U);
  EXPECT_EQ(layout.balls[2].id, "red-2");
  EXPECT_EQ(layout.balls[2].colour, Colour::red);
  EXPECT_DOUBLE_EQ(layout.balls[2].at.x, 0.64025);
  EXPECT_DOUBLE_EQ(layout.balls[2].at.y, 1.210125);
  EXPECT_DOUBLE_EQ(layout.balls[3].sigma_m, 0.0025);
}

TEST(ALayout, IsWrittenAsItWasRead) { EXPECT_EQ(write_layout(evening()), evening_text()); }

TEST(ALayout, KeepsItsNote) {
  coach::Layout layout = evening();
  layout.note = "After the break, table 3.";

  EXPECT_EQ(read_layout(write_layout(layout), "f"), layout);
}

TEST(ALayout, HasItsCueBallFirstWhereverTheFileHasIt) {
  const std::string cue = "    {\"id\": \"cue\", \"at\": [457.0, 420.0]},\n";
  const std::string moved = replaced(replaced(evening_text(), cue, ""), "    {\"id\": \"black\"",
                                     cue + "    {\"id\": \"black\"");

  const coach::Layout layout = read_layout(moved, "f").value();

  EXPECT_EQ(layout, evening());
}

TEST(ALayout, MayBringItsOwnTable) {
  const std::string table = write_table(engine::table_preset("english-8ft").value());
  const std::string own = replaced(evening_text(), "\"english-7ft\"", table);
  EXPECT_EQ(read_layout(own, "f").value().table.id, "english-8ft");
}

TEST(ALayout, NamesAPresetAndWritesAnyOtherTableWhole) {
  coach::Layout layout = evening();
  EXPECT_NE(write_layout(layout).find("\"table\": \"english-7ft\""), std::string::npos);

  layout.table.cloth.rolling = 0.02;

  const std::string text = write_layout(layout);
  EXPECT_NE(text.find("\"rolling\": 0.02"), std::string::npos);
  EXPECT_EQ(write_layout(read_layout(text, "f").value()), text);
}

TEST(ALayout, CanBePutOnAnotherTable) {
  const auto other = engine::table_preset("english-8ft");
  EXPECT_EQ(read_layout(evening_text(), "f", other).value().table, other);
}

TEST(ALayout, IsCheckedOnTheTableThatItIsPutOn) {
  const auto small = engine::table_preset("english-6ft");
  const std::string high = replaced(evening_text(), "1500.0", "1700.0");
  EXPECT_TRUE(read_layout(high, "f").has_value());
  EXPECT_FALSE(read_layout(high, "f", small).has_value());
}

// The plan-view distance of touching balls: 50.8 mm for two reds, 49.174 with the small cue ball
// (row C14 of docs/equipment.md). Up to 0.05 mm less counts as touching.
TEST(TouchingBalls, AreAcceptedAndOverlappingOnesAreNot) {
  const auto red_at = [](const std::string& y) {
    return replaced(evening_text(), "640.25, 1210.125", "200.5, " + y);
  };
  EXPECT_EQ(wrong_with(red_at("950.8")), "");
  EXPECT_EQ(wrong_with(red_at("950.76")), "");
  EXPECT_NE(wrong_with(red_at("950.74")), "");

  const auto cue_at = [](const std::string& y) {
    return replaced(evening_text(), "457.0, 420.0", "200.5, " + y);
  };
  EXPECT_EQ(wrong_with(cue_at("850.84")), "");
  EXPECT_NE(wrong_with(cue_at("850.9")).find("49.17 mm apart"), std::string::npos);
}

// A red touches the side cushion at x = R cos t with sin t = (h - R) / R: 24.456 mm.
TEST(ABallAtTheCushion, MayTouchItAndStandHalfAMillimetreInside) {
  const auto red_at = [](const std::string& x) {
    return replaced(evening_text(), "200.5, 900.0", x + ", 700.0");
  };
  EXPECT_EQ(wrong_with(red_at("24.46")), "");
  EXPECT_EQ(wrong_with(red_at("23.97")), "");
  EXPECT_NE(wrong_with(red_at("23.94")).find("inside a cushion"), std::string::npos);
}

TEST(ABallInTheJaws, IsOnTheTable) {
  EXPECT_EQ(wrong_with(replaced(evening_text(), "200.5, 900.0", "12.0, 914.4")), "");
  EXPECT_EQ(wrong_with(replaced(evening_text(), "200.5, 900.0", "20.0, 20.0")), "");
}

TEST(ALayout, MayBeOfTheAmericanGame) {
  EXPECT_EQ(wrong_with(R"({"format": "three-ahead.layout/1", "table": "american-9ft",
    "rules": "american-8ball", "to_play": "open", "balls": [{"id": "cue", "at": [600, 600]},
    {"id": "solid-1", "at": [300, 900]}, {"id": "stripe-15", "at": [900, 900]},
    {"id": "black", "at": [635, 1900]}]})"),
            "");
}

TEST(ALayout, MayBeTheEndOfASnookerFrame) {
  const auto layout = read_layout(R"({"format": "three-ahead.layout/1", "table": "snooker-12ft",
    "rules": "snooker", "to_play": "colours", "balls": [{"id": "cue", "at": [900, 900]},
    {"id": "yellow", "at": [1181, 737]}, {"id": "pink", "at": [889, 2676]},
    {"id": "black", "at": [889, 3245]}]})",
                                  "f");
  ASSERT_TRUE(layout.has_value()) << one_line(layout.error());
  EXPECT_EQ(layout->balls[1].colour, Colour::yellow);
  EXPECT_EQ(layout->balls[2].colour, Colour::pink);
}

}  // namespace
}  // namespace ahead::formats
