#include "coach/plan/bet.h"

#include <algorithm>
#include <vector>

#include <gtest/gtest.h>

#include "coach/plan/plan_clearance.h"
#include "tests/coach/scene_of_balls.h"

// Playing safe: what is lawful, what it leaves, and when it is the better bet.
namespace ahead::coach {
namespace {

struct Table {
  Layout layout;
  Scene scene;
  Position position;

  explicit Table(Layout of, std::string_view player = "club")
      : layout(std::move(of)),
        scene(scene_of(layout, layout.to_play, *player_preset(player))),
        position(position_of(layout)) {}
  [[nodiscard]] bool lawful_at(double aim_rad, double cue_speed_mps) const {
    const engine::Strike strike{.aim_rad = aim_rad, .cue_speed_mps = cue_speed_mps};
    return lawful(scene, position, play(scene.field, position, strike));
  }
  [[nodiscard]] Opponent opponent() const {
    return {layout, scene, position, std::make_shared<const Glance>(scene.field, scene.player)};
  }
};

constexpr double up_rad = 1.5707963267948966;

Layout red_ahead(Rules rules, double red_y = 600) {
  return test::layout_of({{"cue", {300, red_y - 200}},
                          {"red-1", {300, red_y}},
                          {"yellow-1", {700, 300}},
                          {"black", {457, 1372}}},
                         rules == Rules::snooker ? ToPlay::colours : ToPlay::red, rules);
}

// docs/rules.md, cushion duty: after a miss a ball must reach a cushion.
TEST(ASafePlay, MustSendABallToACushion) {
  for (const Rules rules : {Rules::international, Rules::world, Rules::blackball}) {
    const Table table(red_ahead(rules));
    EXPECT_FALSE(table.lawful_at(up_rad, 0.35)) << "the red stops short";
    EXPECT_TRUE(table.lawful_at(up_rad, 2.5)) << "the red reaches the top";
    EXPECT_FALSE(table.lawful_at(-up_rad, 1.0)) << "no ball on is met first";
  }
}

// reference rules, T16 (blackball, world): a ball that lies against a cushion and is pushed into it
// has not met the duty.
TEST(ASafePlay, MayNotLeanOnTheCushionThatABallLiesAgainst) {
  const double against_mm = 1828.8 - 25.4;
  const Layout layout = red_ahead(Rules::blackball, against_mm);
  const Table table(layout);
  ASSERT_LT(engine::norm(engine::nearest_on(table.scene.field.nose(), table.position.at[1]) -
                         table.position.at[1]) -
                table.scene.field.object_ball().reach_m,
            0.001);
  EXPECT_FALSE(table.lawful_at(up_rad, 0.25));
}

Layout opponent_on_the_black() {
  // The opponent's last yellow and the black hang over pockets; the player's reds are spread.
  return test::layout_of({{"cue", {450, 900}},
                          {"red-1", {120, 420}},
                          {"red-2", {820, 620}},
                          {"red-3", {700, 1100}},
                          {"yellow-1", {60, 1770}},
                          {"black", {860, 1770}}});
}

TEST(TheSafestPlay, LeavesTheOpponentLessThanTheyHaveNow) {
  const Table table(opponent_on_the_black(), "county");
  const Opponent opponent = table.opponent();
  const auto safe = safest_play(table.scene, table.position, opponent,
                                ways_to_clear(table.scene, table.position, WayCare::exact), 1);
  ASSERT_TRUE(safe);
  const double now = opponent.clears(table.position);
  EXPECT_GT(now, 0.5);
  EXPECT_LT(safe->clears, 0.25 * now);
  EXPECT_LT(safe->foul, 0.3);
  EXPECT_TRUE(
      lawful(table.scene, table.position, play(table.scene.field, table.position, safe->strike)));
}

// Common practice, no source: a long pot that leaves nothing on when it misses is a shot to
// nothing.
TEST(TheSafestPlay, IsAShotToNothingWhereAMissLeavesAsLittle) {
  const Layout layout = test::layout_of({{"cue", {457, 250}},
                                         {"red-1", {110, 1560}},
                                         {"red-2", {800, 1000}},
                                         {"yellow-1", {300, 1300}},
                                         {"yellow-2", {700, 1500}},
                                         {"black", {457, 1371}}});
  const auto safe = only_safe_play(layout, *player_preset("novice"), 1, 2);
  ASSERT_TRUE(safe);
  EXPECT_EQ(safe->ball, 1);
  ASSERT_TRUE(safe->pocket);
  EXPECT_EQ(layout.table.pockets[static_cast<std::size_t>(*safe->pocket)].name,
            engine::PocketName::top_left);
  EXPECT_GT(safe->pots, 0.1);
  EXPECT_LT(safe->pots, 0.9);
  EXPECT_LT(safe->clears, 0.05);
}

TEST(TheSafestPlay, IsTheSameOnAnyNumberOfThreads) {
  const Layout layout = opponent_on_the_black();
  const auto one = only_safe_play(layout, *player_preset("club"), 3, 1);
  const auto two = only_safe_play(layout, *player_preset("club"), 3, 2);
  ASSERT_TRUE(one && two);
  EXPECT_EQ(one->strike.aim_rad, two->strike.aim_rad);
  EXPECT_EQ(one->clears, two->clears);
}

// Common practice, no source: who seldom clears plays safe where a miss gives the frame away, and
// who nearly always clears does not.
TEST(APlan, TellsANoviceToPlaySafeAndAProfessionalToClear) {
  const auto novice = plan_clearance(opponent_on_the_black(), *player_preset("novice"), {});
  const auto professional =
      plan_clearance(opponent_on_the_black(), *player_preset("professional"), {});
  ASSERT_TRUE(novice && professional);
  ASSERT_TRUE(novice->bet);
  EXPECT_TRUE(novice->bet->bad());
  EXPECT_TRUE(!professional->bet || professional->bet->good());
}

TEST(AnOpponent, OnAnOpenTableTakesTheBetterColour) {
  Layout open = opponent_on_the_black();
  open.to_play = ToPlay::open;
  const Layout reds = opponent_on_the_black();
  const Table table(reds, "novice");
  const auto glance = std::make_shared<const Glance>(table.scene.field, table.scene.player);
  const Opponent either(open, table.scene, table.position, glance);
  const Opponent yellows(reds, table.scene, table.position, glance);
  EXPECT_GE(either.clears(table.position), yellows.clears(table.position));
  EXPECT_GT(yellows.clears_after_foul(table.position, false), yellows.clears(table.position));
}

TEST(TheShareOfWins, WeighsWhatIsLeft) {
  EXPECT_EQ(share_of_wins(1, 1), 1);
  EXPECT_EQ(share_of_wins(0, 0), 0.5);
  EXPECT_EQ(share_of_wins(0, 1), 0);
  EXPECT_DOUBLE_EQ(share_of_wins(0.4, 0.5), 0.55);
}

}  // namespace
}  // namespace ahead::coach
