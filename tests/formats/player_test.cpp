#include "formats/player.h"

#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace ahead::formats {
namespace {

using nlohmann::json;

json club() { return json::parse(write_player(coach::player_preset("club").value())); }

coach::Player read(const json& file) {
  const auto player = read_player(file.dump(), "f");
  EXPECT_TRUE(player.has_value());
  return player.value_or(coach::Player{});
}

// Files from before the cue, the bridges and the rests were asked.
TEST(APlayerFile, WithoutTheLaterKeysTakesTheDefaults) {
  json file = club();
  for (const char* key : {"height_mm", "cue", "bridging"}) file.erase(key);
  file["handicaps"] = {{"raised", file["handicaps"]["raised"]}};

  const coach::Player player = read(file);

  EXPECT_EQ(player.height_m, coach::Player{}.height_m);
  EXPECT_EQ(player.cue, coach::OwnCue{});
  EXPECT_EQ(player.bridging, coach::Bridging{});
  EXPECT_EQ(player.rest, coach::Player{}.rest);
  EXPECT_THAT(player.other_hand.source, testing::HasSubstr("assumption"));
}

TEST(APlayerFile, KeepsTheCueTheBridgesAndTheRests) {
  json file = club();
  file["height_mm"] = 1420;
  file["cue"] = {
      {"length_mm", 1220}, {"butt_mm", 26}, {"parallel_mm", 0}, {"tip_mm", 8.5}, {"weight_g", 420}};
  file["bridging"] = {{"habit", "closed"},
                      {"flat_mm", {25, 45}},
                      {"raised_mm", {45, 80}},
                      {"rests", {"spider"}},
                      {"extension_mm", 300}};
  file["handicaps"]["rest"]["factor"] = 1.8;

  const coach::Player player = read(file);

  EXPECT_NEAR(player.height_m, 1.42, 1e-12);
  EXPECT_NEAR(player.cue.length_m, 1.22, 1e-12);
  EXPECT_NEAR(player.cue.tip_width_m.value(), 0.0085, 1e-12);
  EXPECT_NEAR(player.cue.mass_kg.value(), 0.42, 1e-12);
  EXPECT_TRUE(player.bridging.closed);
  EXPECT_NEAR(player.bridging.raised.high_m, 0.08, 1e-12);
  EXPECT_FALSE(player.bridging.rest);
  EXPECT_TRUE(player.bridging.spider);
  EXPECT_EQ(player.rest.factor, 1.8);
  EXPECT_EQ(json::parse(write_player(player)), file);
}

TEST(APlayerFile, TakesTwoHeightsInEitherOrder) {
  json file = club();
  file["bridging"]["flat_mm"] = {45, 20};
  EXPECT_LT(read(file).bridging.flat.low_m, read(file).bridging.flat.high_m);
}

TEST(ThePlayersCue, TakesTheTablesPlaceWhereItIsKnown) {
  coach::Player player;
  const engine::Cue of_table;
  EXPECT_EQ(coach::cue_of(player, of_table), of_table);
  player.cue.tip_width_m = 0.011;
  player.cue.mass_kg = 0.48;
  EXPECT_EQ(coach::cue_of(player, of_table).tip_width_m, 0.011);
  EXPECT_EQ(coach::cue_of(player, of_table).mass_kg, 0.48);
  EXPECT_EQ(coach::cue_of(player, of_table).restitution, of_table.restitution);
}

}  // namespace
}  // namespace ahead::formats
