#include "coach/read/reading.h"

#include <string>

#include <gtest/gtest.h>

#include "tests/coach/scene_of_balls.h"

namespace ahead::coach {
namespace {

Reading read(const Layout& layout) { return read_table(layout, *player_preset("club"), 1); }

// Common practice, no source: a ball in the open middle of an empty table goes almost anywhere.
TEST(AReading, CallsAnOpenBallInsurance) {
  const Reading reading =
      read(test::layout_of({{"cue", {300, 300}}, {"red-1", {457, 900}}, {"black", {457, 1600}}}));

  EXPECT_TRUE(reading.of(1).insurance);
  EXPECT_FALSE(reading.of(1).problem);
  EXPECT_EQ(reading.colours[0].insurance, std::vector<int>{1});
}

// Common practice, no source: a ball tight on a cushion is a problem ball.
TEST(AReading, CallsATightBallAProblem) {
  const Reading reading =
      read(test::layout_of({{"cue", {500, 300}}, {"red-1", {28, 600}}, {"black", {457, 1600}}}));

  EXPECT_TRUE(reading.of(1).problem);
  EXPECT_EQ(reading.colours[0].problems.front(), 1);
}

/// A red in a ring of six yellows that leave it no way out.
Layout ringed_red() {
  Layout layout = test::layout_of(
      {{"cue", {457, 300}}, {"red-1", {457, 900}}, {"red-2", {800, 300}}, {"black", {300, 1600}}});
  for (int i = 0; i < 6; ++i) {
    layout.balls.push_back({.id = "yellow-" + std::to_string(i + 1),
                            .colour = Colour::yellow,
                            .at = layout.balls[1].at + 0.0535 * engine::direction(i * 1.0471976)});
  }
  return layout;
}

TEST(AReading, FindsNoWayOutOfARing) {
  const Reading reading = read(ringed_red());

  EXPECT_EQ(reading.of(1).ways(), 0);
  EXPECT_TRUE(reading.of(1).problem);
  EXPECT_EQ(reading.of(1).neighbours.size(), 6U);
  EXPECT_EQ(reading.colours[0].problems.front(), 1);
}

// Yellows stand on the ways of a red near the cushion; what the push opens was shut before it.
TEST(ANudge, OpensAPocketThatWasShut) {
  Layout layout = test::layout_of({{"cue", {500, 900}},
                                   {"red-1", {27, 300}},
                                   {"black", {457, 1600}},
                                   {"yellow-1", {40, 200}},
                                   {"yellow-2", {60, 420}},
                                   {"yellow-3", {140, 240}}});
  const Reading reading = read(layout);
  ASSERT_TRUE(reading.of(1).problem);
  ASSERT_TRUE(reading.of(1).freed_by);
  const Nudge nudge = *reading.of(1).freed_by;

  EXPECT_GE(nudge.moves_m, 0.01);
  EXPECT_NEAR(engine::norm(nudge.to - layout.balls[static_cast<std::size_t>(nudge.ball)].at),
              nudge.moves_m, 1e-9);
  ASSERT_FALSE(nudge.opens.empty());
  for (const int pocket : nudge.opens) {
    EXPECT_LT(reading.of(1).pockets[static_cast<std::size_t>(pocket)].share, worth_opening);
  }
}

TEST(ASnooker, IsTotalWhenEveryBallOnIsHidden) {
  const auto layout = [](double aside_mm) {
    return test::layout_of({{"cue", {400, 300}},
                            {"red-1", {400, 1500}},
                            {"yellow-1", {400 + aside_mm, 500}},
                            {"black", {800, 1500}}});
  };

  EXPECT_TRUE(read(layout(0)).snookered);
  EXPECT_FALSE(read(layout(60)).snookered);
  EXPECT_TRUE(read(layout(30)).edges_hidden);
  EXPECT_FALSE(read(layout(90)).edges_hidden);
}

// The rules' clauses: docs/rules.md, from league and federation copies.
TEST(TheRulesAtHand, SayHowSureTheyAre) {
  EXPECT_EQ(rules_at_hand(Rules::international).touching.standing, Standing::unseen);
  EXPECT_EQ(rules_at_hand(Rules::world).snookered.standing, Standing::read);
  EXPECT_EQ(rules_at_hand(Rules::american_8ball).snooker, SnookerMeans::nothing);
  EXPECT_EQ(rules_at_hand(Rules::snooker).snooker, SnookerMeans::both_edges);
}

// Common practice, no source: take the colour that lies open, not the one at the cushions.
TEST(TheColourChoice, TakesTheColourThatLiesOpen) {
  const Reading reading = read(test::layout_of({{"cue", {457, 500}},
                                                {"red-1", {200, 1000}},
                                                {"red-2", {700, 1300}},
                                                {"red-3", {300, 400}},
                                                {"yellow-1", {27, 700}},
                                                {"yellow-2", {887, 1200}},
                                                {"yellow-3", {457, 1802}},
                                                {"black", {457, 1372}}},
                                               ToPlay::open, Rules::blackball));

  ASSERT_EQ(reading.colours.size(), 2U);
  EXPECT_EQ(reading.colours[0].colour, ToPlay::red);
  EXPECT_LT(reading.colours[0].problems.size(), reading.colours[1].problems.size());
}

// Common practice, no source: the key ball is the one from which position on the black is easiest.
// The black is on its spot; red 1 lies near it, red 2 at the far end.
TEST(TheKeyBall, LiesNearTheBlack) {
  const Reading reading = read(test::layout_of({{"cue", {457, 900}},
                                                {"red-1", {750, 1500}},
                                                {"red-2", {200, 250}},
                                                {"black", {457, 1372}}}));

  ASSERT_EQ(reading.colours[0].keys.size(), 2U);
  EXPECT_EQ(reading.colours[0].keys[0].ball, 1);
}

}  // namespace
}  // namespace ahead::coach
