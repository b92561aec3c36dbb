#include "coach/risk/chance.h"

#include <array>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "coach/player/scatter.h"
#include "coach/random.h"
#include "engine/equipment/presets.h"

namespace ahead::coach {
namespace {

// Wilson (1927): x = (p + z^2/2n -+ z sqrt(p(1-p)/n + z^2/4n^2)) / (1 + z^2/n); values by hand.
TEST(AChance, HasWilsonsInterval) {
  const Chance seven = chance_of(7, 10);
  EXPECT_NEAR(seven.low, 0.3968, 1e-4);
  EXPECT_NEAR(seven.high, 0.8922, 1e-4);

  const Chance none = chance_of(0, 300);
  EXPECT_EQ(none.low, 0);
  EXPECT_NEAR(none.high, 0.01264, 1e-4);  // z^2 / (n + z^2)
}

TEST(AChanceOfShares, IsWilsonsWhereTheyAreAllOrNothing) {
  const Chance shares = chance_of(std::array{1.0, 0.0, 1.0, 1.0, 0.0, 1.0, 1.0, 0.0, 1.0, 1.0});
  const Chance seven = chance_of(7, 10);
  EXPECT_NEAR(shares.value, seven.value, 1e-12);
  EXPECT_NEAR(shares.low, seven.low, 1e-12);
  EXPECT_NEAR(shares.high, seven.high, 1e-12);
  EXPECT_EQ(shares.trials, 10);
}

// By hand: they scatter by 10/16, with half a share of each kind by 7/8, and 11 that are all or
// nothing by 11/4, so that the ten count as 220/7.
TEST(AChanceOfShares, IsSurerTheLessTheyScatter) {
  std::vector<double> shares(5, 0.25);
  shares.insert(shares.end(), 5, 0.75);
  const Chance chance = chance_of(shares);
  EXPECT_NEAR(chance.value, 0.5, 1e-12);
  EXPECT_NEAR(chance.low, 0.3350, 1e-4);
  EXPECT_NEAR(chance.high, 0.6650, 1e-4);
}

TEST(AChanceOfShares, IsNotSureBecauseAFewAgree) {
  const Chance chance = chance_of(std::vector<double>(8, 1e-6));
  EXPECT_NEAR(chance.high, chance_of(0, 8).high, 1e-3);
}

// Products of shares, as clearances have them: the true mean is 0.75^4.
TEST(AChanceOfShares, HoldsTheTruthAboutAsOftenAsItSays) {
  const double truth = std::pow(0.75, 4);
  int held = 0;
  constexpr int times = 1000;
  for (int i = 0; i < times; ++i) {
    Random random(11, static_cast<std::uint64_t>(i));
    std::vector<double> shares(60, 1);
    for (double& share : shares) {
      for (int k = 0; k < 4; ++k) share *= 0.5 + 0.5 * random.uniform();
    }
    const Chance chance = chance_of(shares);
    held += chance.low <= truth && truth <= chance.high ? 1 : 0;
  }
  // 95%, give or take four standard errors.
  EXPECT_GT(held, 920);
  EXPECT_LT(held, 980);
}

TEST(RandomNumbers, AreStandardNormal) {
  double sum = 0;
  double squares = 0;
  double cubes = 0;
  constexpr int count = 100'000;
  for (int i = 0; i < count; ++i) {
    Random random(3, static_cast<std::uint64_t>(i));
    const double x = random.normal();
    sum += x;
    squares += x * x;
    cubes += x * x * x;
  }
  // Five standard errors: 1, sqrt 2 and sqrt 15 over the root of the count.
  EXPECT_NEAR(sum / count, 0, 5 / std::sqrt(count));
  EXPECT_NEAR(squares / count, 1, 5 * std::sqrt(2.0 / count));
  EXPECT_NEAR(cubes / count, 0, 5 * std::sqrt(15.0 / count));
}

TEST(RandomNumbers, AreTheSameForTheSameStream) {
  Random one(1, 7);
  Random two(1, 7);
  Random other(1, 8);
  const double first = one.uniform();
  EXPECT_EQ(first, two.uniform());
  EXPECT_NE(first, other.uniform());
}

// The direction error is the net one: what the tip's scatter does to the launch is already in it.
TEST(AScatteredStrike, LaunchesOffTheMeantLineByTheDirectionErrorAlone) {
  const engine::Table table = *engine::table_preset("english-7ft");
  const engine::Strike meant{.aim_rad = 1, .side = 0.2, .height = -0.1, .cue_speed_mps = 2};
  const auto launch = [&](const engine::Strike& strike) {
    const engine::BallState state = engine::struck({.position = {0.4, 0.4, 0.0238}}, strike,
                                                   table.cue_ball, table.cue, table.cloth);
    return engine::angle_rad(engine::plan(state.velocity));
  };

  const engine::Strike tried =
      played(meant, {.direction_rad = 0.003, .tip_height_m = 0.001, .tip_side_m = -0.003}, table);

  EXPECT_NE(tried.side, meant.side);
  EXPECT_NEAR(launch(tried) - launch(meant), 0.003, 1e-12);
}

}  // namespace
}  // namespace ahead::coach
