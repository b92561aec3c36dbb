#include "engine/equipment/presets.h"

#include <algorithm>
#include <string>

#include <gtest/gtest.h>

#include "coach/player/player.h"
#include "formats/player.h"
#include "formats/table.h"

namespace ahead::formats {
namespace {

TEST(EveryTablePreset, IsAValidFileThatIsWrittenTheSameAgain) {
  ASSERT_FALSE(engine::table_preset_ids().empty());
  for (const std::string_view id : engine::table_preset_ids()) {
    const std::string text = write_table(engine::table_preset(id).value());
    const auto table = read_table(text, id);
    ASSERT_TRUE(table.has_value()) << one_line(table.error());
    EXPECT_EQ(write_table(*table), text);
  }
}

TEST(EveryTablePreset, IsReadBackToTheNanometre) {
  for (const std::string_view id : engine::table_preset_ids()) {
    const engine::Table preset = engine::table_preset(id).value();
    const engine::Table read = read_table(write_table(preset), id).value();
    EXPECT_NEAR(read.width_m, preset.width_m, 1e-9);
    EXPECT_EQ(read.cloth, preset.cloth);
    EXPECT_EQ(read.ball_contact, preset.ball_contact);
    EXPECT_EQ(read.notes, preset.notes);
    ASSERT_EQ(read.rails.size(), preset.rails.size());
    for (std::size_t i = 0; i < read.rails.size(); ++i) {
      ASSERT_EQ(read.rails[i].index(), preset.rails[i].index());
      if (const auto* arc = std::get_if<engine::RailArc>(&read.rails[i])) {
        const auto& of_preset = std::get<engine::RailArc>(preset.rails[i]);
        EXPECT_NEAR(arc->centre.x, of_preset.centre.x, 1e-9);
        EXPECT_NEAR(arc->radius_m, of_preset.radius_m, 1e-9);
        EXPECT_NEAR(arc->from_rad, of_preset.from_rad, 1e-9);
        EXPECT_NEAR(arc->to_rad, of_preset.to_rad, 1e-9);
      }
    }
    for (std::size_t i = 0; i < read.pockets.size(); ++i) {
      EXPECT_EQ(read.pockets[i].name, preset.pockets[i].name);
      EXPECT_NEAR(read.pockets[i].fall_radius_m, preset.pockets[i].fall_radius_m, 1e-9);
    }
  }
}

TEST(ATable, WithoutPhysicsTakesTheDefaults) {
  engine::Table table = engine::table_preset("english-7ft").value();
  table.cloth.rolling = 0.03;
  std::string text = write_table(table);
  const std::size_t from = text.find("  \"cloth\"");
  text.erase(from, text.find("  \"markings\"") - from);

  const engine::Table read = read_table(text, "f").value();

  EXPECT_EQ(read.cloth, engine::Cloth{});
  EXPECT_EQ(read.ball_contact, engine::BallContact{});
  EXPECT_EQ(read.cushion, engine::Cushion{});
  EXPECT_EQ(read.cue, engine::Cue{});
}

TEST(ATable, KeepsItsNap) {
  engine::Table table = engine::table_preset("english-7ft").value();
  table.cloth.nap = 0.00235;
  EXPECT_EQ(read_table(write_table(table), "f").value().cloth, table.cloth);
}

TEST(ATable, MayHaveANapOfHalfItsRollingResistanceAndNoMore) {
  engine::Table table = engine::table_preset("english-7ft").value();
  table.cloth.nap = table.cloth.rolling / 2;
  EXPECT_TRUE(read_table(write_table(table), "f").has_value());
  table.cloth.nap = table.cloth.rolling;
  EXPECT_EQ(read_table(write_table(table), "f").error().place, "/cloth/nap");
}

TEST(ATable, KeepsItsPocketsInOneOrder) {
  engine::Table table = engine::table_preset("english-7ft").value();
  const auto in_order = table.pockets;
  std::ranges::reverse(table.pockets);
  const auto read = read_table(write_table(table), "f").value();
  for (std::size_t i = 0; i < 6; ++i) EXPECT_EQ(read.pockets[i].name, in_order[i].name);
}

TEST(EveryPlayerPreset, IsAValidFileThatIsWrittenTheSameAgain) {
  ASSERT_EQ(coach::player_preset_ids().size(), 4U);
  for (const std::string_view id : coach::player_preset_ids()) {
    const std::string text = write_player(coach::player_preset(id).value());
    const auto player = read_player(text, id);
    ASSERT_TRUE(player.has_value()) << one_line(player.error());
    EXPECT_EQ(write_player(*player), text);
  }
}

}  // namespace
}  // namespace ahead::formats
