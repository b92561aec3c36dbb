#include "coach/risk/chance.h"

#include <cmath>

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
