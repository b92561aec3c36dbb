#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "coach/access/access.h"
#include "coach/aim/aim.h"
#include "coach/pots/prospect.h"
#include "coach/pots/way.h"
#include "tests/coach/scene_of_balls.h"

// Facts of the trade about leaves and access. Common practice, no source, unless one is named.
namespace ahead::coach {
namespace {

using engine::Vec2;

struct Pot {
  Scene scene;
  Position position;
  Way way;
};

/// One red to the top-right, the cue ball behind it on the line turned by `cut_rad`.
Pot pot_with_cut(double cut_deg, std::string_view player, double behind_m = 0.45) {
  const Vec2 red{0.6, 1.4};
  const Vec2 hole = engine::table_preset("english-7ft")
                        ->pockets[static_cast<std::size_t>(engine::PocketName::top_right)]
                        .centre;
  const double line_rad = engine::angle_rad(hole - red) + cut_deg * 0.0174533;
  const Vec2 cue = red - behind_m * engine::direction(line_rad);
  const Layout layout = test::layout_of({{"cue", 1000 * cue}, {"red-1", 1000 * red}});
  Pot pot{scene_of(layout, ToPlay::red, *player_preset(player)), position_of(layout), {}};
  const auto ways = ways_of(pot.scene, pot.position, 1);
  pot.way = *std::ranges::find(ways, static_cast<int>(engine::PocketName::top_right), &Way::pocket);
  return pot;
}

std::optional<Prospect> played_with(const Pot& pot, const Touch& touch) {
  return prospect_of(pot.scene, pot.position, pot.way, touch);
}

// "Leave an angle": from a straight pot a stunned cue ball stays; from an angle it goes somewhere.
TEST(FactsOfTheTrade, AnAngleIsWhatMovesAStunnedCueBall) {
  const Touch stun{.height = -0.2, .cue_speed_mps = 1.8};
  const Pot straight = pot_with_cut(0, "county");
  const Pot angled = pot_with_cut(35, "county");
  const auto stays = played_with(straight, stun);
  const auto goes = played_with(angled, stun);
  ASSERT_TRUE(stays && goes);
  const auto moved_m = [](const Pot& pot, const Prospect& prospect) {
    const Vec2 line = engine::direction(pot.way.gates.middle_rad());
    const Vec2 red = pot.position.at[1];
    const Vec2 contact = ghost_ball(pot.scene.field.table(), red, red + line);
    return engine::norm(prospect.leaves.at[0] - contact);
  };
  EXPECT_GT(moved_m(angled, *goes), 2 * moved_m(straight, *stays));
}

// Pace tells more of where the cue ball goes than of the pot: a firm follow is left over a longer
// stretch than a soft one by the same player.
TEST(FactsOfTheTrade, TheHarderTheShotTheLongerTheStretchWhereTheCueBallMayStop) {
  const Pot pot = pot_with_cut(30, "club");
  const auto soft = played_with(pot, {.height = 0.2, .cue_speed_mps = 0.8});
  const auto firm = played_with(pot, {.height = 0.2, .cue_speed_mps = 2.0});
  ASSERT_TRUE(soft && firm);
  EXPECT_LT(engine::norm(soft->drift), engine::norm(firm->drift));
}

// Closer is easier, straighter is easier, and the better player is surer.
TEST(FactsOfTheTrade, APotIsSurerFromNearStraightAndForTheBetterPlayer) {
  const Touch plain{.height = 0.1, .cue_speed_mps = 1.2};
  const auto chance = [&](double cut_deg, std::string_view player, double behind_m) {
    const auto prospect = played_with(pot_with_cut(cut_deg, player, behind_m), plain);
    return prospect ? prospect->pot : 0.0;
  };
  EXPECT_GT(chance(20, "club", 0.3), chance(20, "club", 0.8));
  EXPECT_GT(chance(20, "club", 0.6), chance(55, "club", 0.6));
  EXPECT_GT(chance(40, "professional", 0.6), chance(40, "county", 0.6));
  EXPECT_GT(chance(40, "county", 0.6), chance(40, "club", 0.6));
  EXPECT_GT(chance(40, "club", 0.6), chance(40, "novice", 0.6));
}

// "Stay off the cushion": a cue ball tight on it leaves no screw.
TEST(FactsOfTheTrade, ATightCueBallLeavesNoScrew) {
  const Layout layout = test::layout_of({{"cue", {457, 24.5}}, {"red-1", {457, 700}}});
  const Scene scene = scene_of(layout, ToPlay::red, *player_preset("county"));
  const Position position = position_of(layout);
  const auto at = [&](double height) {
    return access(scene, position, {.aim_rad = 1.5707963, .height = height, .cue_speed_mps = 1.5});
  };
  EXPECT_FALSE(recommended(at(-0.4)));
  EXPECT_TRUE(recommended(at(0.3)));
}

}  // namespace
}  // namespace ahead::coach
