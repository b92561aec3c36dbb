#include "coach/trial/trial.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <vector>

#include <gtest/gtest.h>

#include "coach/trial/greedy.h"
#include "coach/trial/onestep.h"
#include "coach/trial/ratio.h"
#include "tests/coach/scene_of_balls.h"

namespace ahead::coach {
namespace {

using test::layout_of;

Player player(std::string_view id) { return *player_preset(id); }

Player without_errors() {
  Player player = *player_preset("county");
  player.direction_rad.sigma = 0;
  player.pace.sigma = 0;
  player.tip_height_m.sigma = 0;
  player.tip_side_m.sigma = 0;
  player.elevation_rad.sigma = 0;
  return player;
}

Layout red_and_black() {
  return layout_of({{"cue", {450, 500}}, {"red-1", {250, 1000}}, {"black", {650, 1400}}});
}

/// An easy red over a corner, a longer one, and the black far from the easy one.
Layout easy_and_hard() {
  return layout_of(
      {{"cue", {450, 900}}, {"red-1", {80, 1740}}, {"red-2", {700, 400}}, {"black", {200, 300}}});
}

Layout ringed() {
  return layout_of({{"cue", {457, 300}},
                    {"red-1", {457, 1300}},
                    {"yellow-1", {457, 1351}},
                    {"yellow-2", {508, 1300}},
                    {"yellow-3", {457, 1249}},
                    {"yellow-4", {406, 1300}},
                    {"black", {700, 1700}}});
}

TEST(Calibration, PutsEachChanceIntoItsTenth) {
  const std::vector<Foretold> foretold{{0.0, false}, {0.0999, true}, {0.1, true},
                                       {0.75, true}, {0.71, false},  {1.0, true}};

  const auto tenths = calibration(foretold);

  std::array<int, 10> cases{};
  std::ranges::transform(tenths, cases.begin(), &Tenth::cases);
  EXPECT_EQ(cases, (std::array{2, 1, 0, 0, 0, 0, 0, 2, 0, 1}));
  EXPECT_NEAR(tenths[7].stated, 0.73, 1e-12);
  EXPECT_EQ(tenths[7].actual.value, 0.5);
  EXPECT_EQ(tenths[7].actual.trials, 2);
  EXPECT_EQ(tenths[3].actual.low, 0);
  EXPECT_EQ(tenths[3].actual.high, 1);
}

// Katz et al. (1978): log ratio +- z sqrt(1/a - 1/m + 1/b - 1/n). For 15 of 20 against 5 of 20:
// ratio 3, standard error sqrt(1/6), interval 3 e^-0.80015 to 3 e^0.80015, by hand.
TEST(ARatio, HasTheLogarithmicInterval) {
  const Ratio ratio = ratio_of({15, 20}, {5, 20});

  EXPECT_NEAR(ratio.value, 3, 1e-12);
  EXPECT_NEAR(ratio.low, 1.3478, 1e-4);
  EXPECT_NEAR(ratio.high, 6.6776, 1e-4);
}

TEST(ARatio, IsFiniteWhenOneSideNeverSucceeds) {
  const Ratio ratio = ratio_of({4, 20}, {0, 20});

  EXPECT_NEAR(ratio.value, 9, 1e-12);  // 4.5 over 0.5, both of 20.5
  EXPECT_LT(ratio.low, 1);
  EXPECT_TRUE(std::isfinite(ratio.high));
}

TEST(TheGreedyPolicy, StrikesTheEasiestBallInTheMiddle) {
  const Layout layout = easy_and_hard();
  const Scene scene = scene_of(layout, ToPlay::red, player("club"));
  long simulated = 0;

  const auto pot = easiest_pot(scene, position_of(layout), 1, simulated);

  ASSERT_TRUE(pot);
  EXPECT_EQ(layout.balls[static_cast<std::size_t>(pot->call.ball)].id, "red-1");
  EXPECT_EQ(pot->call.strike.side, 0);
  EXPECT_EQ(pot->call.strike.height, 0);
  EXPECT_GT(simulated, 0);
}

/// The chance of this pot and the best after it, by other draws than those that chose.
double two_balls(const Scene& scene, const ValueField& field, const Position& position,
                 const Call& call) {
  constexpr int count = 2000;
  double sum = 0;
  for (const Try& one : tries_of(scene, position, call, count, 77)) {
    if (succeeded(one)) sum += field.best_pot(one.leaves.present, one.leaves.at[0]);
  }
  return sum / count;
}

TEST(TheOneStepPolicy, LeavesTheNextBallBetterThanTheGreedyOne) {
  const Layout layout = easy_and_hard();
  const Scene scene = scene_of(layout, ToPlay::red, player("club"));
  const Position position = position_of(layout);
  const ValueField field(scene, position, fine_grid,
                         std::make_shared<const Glance>(scene.field, scene.player));
  long simulated = 0;

  const auto onestep = best_for_next_ball(scene, field, position, 1, simulated);
  const auto greedy = easiest_pot(scene, position, 1, simulated);

  ASSERT_TRUE(onestep);
  ASSERT_TRUE(greedy);
  const double stated = two_balls(scene, field, position, onestep->call);
  EXPECT_GT(stated, two_balls(scene, field, position, greedy->call) + 0.02);
  // 400 tries behind the one and 2,000 behind the other: three standard errors of a share.
  EXPECT_NEAR(stated, onestep->two_balls, 0.08);
}

TEST(Decisions, AreNoneWithoutAPot) {
  const Layout layout = ringed();
  for (const Policy policy : {Policy::plan, Policy::greedy, Policy::onestep}) {
    const TrialStart start = trial_start(layout, player("county"), policy, 1);
    EXPECT_FALSE(start.first);

    const PlayedClearance played = play_clearance(start, 0);

    EXPECT_EQ(played.outcome, Outcome::no_pot);
    EXPECT_TRUE(played.shots.empty());
    EXPECT_EQ(played.left, 2);
  }
}

TEST(AClearance, AlwaysSucceedsWithoutErrors) {
  const LayoutTrial trial =
      play_layout(red_and_black(), without_errors(), Policy::plan, {.runs = 3});

  for (const PlayedClearance& played : trial.clearances) {
    EXPECT_EQ(played.outcome, Outcome::cleared);
    EXPECT_EQ(played.left, 0);
    ASSERT_EQ(played.shots.size(), 2U);
    EXPECT_EQ(played.shots[0].pot, 1);
    EXPECT_EQ(played.shots[1].pot, 1);
  }
}

TEST(AClearance, GoesOnFromWhereTheBallsCameToRest) {
  const TrialStart start = trial_start(red_and_black(), player("county"), Policy::greedy, 3);
  int followed = 0;
  for (int run = 0; run < 10; ++run) {
    const PlayedClearance played = play_clearance(start, run);
    for (std::size_t i = 0; i + 1 < played.shots.size(); ++i) {
      const Attempt& attempt = played.shots[i].attempt;
      const Played again = play(start.scene.field, attempt.from, attempt.strike);
      EXPECT_EQ(after(attempt.from, again), played.shots[i + 1].before);
      EXPECT_NE(attempt.strike.aim_rad, played.shots[i].call.strike.aim_rad);
      ++followed;
    }
  }
  EXPECT_GT(followed, 3);
}

/// Two balls that a club player clears now and then.
Tally tally_of(int threads) {
  Tally tally;
  for (const Policy policy : {Policy::plan, Policy::greedy}) {
    add(tally, play_layout(red_and_black(), player("club"), policy,
                           {.runs = 12, .seed = 5, .threads = threads}));
  }
  return tally;
}

TEST(ATally, AddsUp) {
  const Tally tally = tally_of(0);

  EXPECT_EQ(tally.runs, 24);
  EXPECT_EQ(std::accumulate(tally.outcomes.begin(), tally.outcomes.end(), 0), tally.runs);
  EXPECT_EQ(tally.outcomes[static_cast<std::size_t>(Outcome::cleared)], tally.cleared);
  EXPECT_EQ(std::accumulate(tally.ended_with.begin(), tally.ended_with.end(), 0), tally.runs);
  EXPECT_EQ(tally.ended_with[0], tally.cleared);
  EXPECT_EQ(static_cast<int>(tally.pots.size()), tally.shots);
  EXPECT_EQ(tally.clearances.size(), 12U);  // only the plan states one
  EXPECT_GT(tally.cleared, 0);
  EXPECT_LT(tally.cleared, tally.runs);
}

TEST(ATally, IsTheSameForAnyNumberOfThreads) { EXPECT_EQ(tally_of(1), tally_of(2)); }

TEST(ATrial, ChoosesAColourOnAnOpenTable) {
  const Layout layout = layout_of(
      {{"cue", {450, 900}}, {"yellow-1", {80, 1740}}, {"red-1", {457, 60}}, {"black", {200, 900}}},
      ToPlay::open);

  const TrialStart start = trial_start(layout, player("club"), Policy::greedy, 1);

  EXPECT_EQ(start.colour, ToPlay::yellow);
}

}  // namespace
}  // namespace ahead::coach
