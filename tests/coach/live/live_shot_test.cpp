#include "coach/live/live_shot.h"

#include <filesystem>

#include <gtest/gtest.h>

#include "formats/layout.h"
#include "tests/support/text_of.h"

namespace ahead::coach {
namespace {

Layout evening() {
  const auto path = std::filesystem::path(AHEAD_SOURCE_DIR) / "examples/evening-class.json";
  return *formats::read_layout(test::text_of(path), "evening");
}

struct Table {
  Layout layout = evening();
  Scene scene = scene_of(layout, ToPlay::red, *player_preset("club"));
  Position position = position_of(layout);
};

LiveShot asked(const Table& table, int ball, int pocket, int tries) {
  const auto way = way_to(table.scene, table.position, ball, pocket);
  return live_shot(table.scene, table.position, {.pot = MeantPot{ball, pocket}, .tries = tries},
                   way ? &*way : nullptr);
}

TEST(ALiveAnswer, AgreesWithTheCloseLookOnWhatGoes) {
  const Table table;
  for (int ball = 1; ball <= 6; ++ball) {
    for (int pocket = 0; pocket < 6; ++pocket) {
      const auto live = asked(table, ball, pocket, 0).pot->no_pot;
      const auto close =
          analyse_pot(table.scene, table.position, ball, pocket, std::nullopt, 1).no_pot;
      // Whether any strike is good enough is a question that a live answer does not ask.
      if (close == NoPot::no_strike || close == NoPot::no_access) continue;
      EXPECT_EQ(live, close) << "ball " << ball << ", pocket " << pocket;
    }
  }
}

TEST(ALiveAnswer, HasAFirstOrderChanceNearThatOfItsTries) {
  const Table table;
  int compared = 0;
  for (const PlainPot& plain : plain_pots(table.scene, table.position)) {
    const LiveShot live = asked(table, plain.pot.ball, plain.pot.pocket, 400);
    // First order in the errors, and the tries' own scatter of 2.5% one sigma.
    EXPECT_NEAR(live.pot->first_order, live.option->pot.value, 0.12)
        << "ball " << plain.pot.ball << ", pocket " << plain.pot.pocket;
    ++compared;
  }
  EXPECT_GT(compared, 3);
}

TEST(ALiveAnswer, ShowsTheStrikeThatItWasGiven) {
  const Table table;
  const engine::Strike strike{.aim_rad = 1, .side = 0.2, .height = 0.1, .cue_speed_mps = 2};
  const LiveShot live = live_shot(table.scene, table.position, {.how = strike}, nullptr);
  EXPECT_EQ(live.strike, strike);
  EXPECT_EQ(live.intended, play(table.scene.field, table.position, strike).shot);
  EXPECT_FALSE(live.pot.has_value());
}

TEST(TheWayToOnePocket, IsTheSameAsAmongAll) {
  const Table table;
  for (int ball = 1; ball <= 6; ++ball) {
    const auto all = ways_of(table.scene, table.position, ball);
    std::size_t found = 0;
    for (int pocket = 0; pocket < 6; ++pocket) {
      const auto one = way_to(table.scene, table.position, ball, pocket);
      if (!one) continue;
      ASSERT_LT(found, all.size());
      EXPECT_EQ(one->pocket, all[found].pocket);
      EXPECT_EQ(one->blockers, all[found].blockers);
      ++found;
    }
    EXPECT_EQ(found, all.size());
  }
}

}  // namespace
}  // namespace ahead::coach
