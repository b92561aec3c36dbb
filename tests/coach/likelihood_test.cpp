#include "coach/player/likelihood.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "engine/equipment/presets.h"

namespace ahead::coach {
namespace {

const engine::Table& english() {
  static const engine::Table table = *engine::table_preset("english-7ft");
  return table;
}

constexpr engine::Strike meant{
    .aim_rad = 3.14, .elevation_rad = 0.06, .side = -0.1, .height = 0.2, .cue_speed_mps = 1.5};

/// Mean of the likelihood of `other` over that of `meant`, over strikes that `meant` came to.
double mean_ratio(const Player& player, const engine::Strike& other) {
  const Likelihood own(player, meant, 1, english());
  const Likelihood others(player, other, 1.2, english());
  Random random(3, 1);
  constexpr int draws = 100'000;
  double sum = 0;
  for (int i = 0; i < draws; ++i) {
    const Slip slip = drawn(player, {.elevation_rad = meant.elevation_rad}, random);
    const engine::Strike came = played(meant, slip, english());
    if (engine::miscues(came, english().cue)) continue;  // one in some hundred
    const CameOut strike = came_out(came, english());
    sum += others(strike) / own(strike);
  }
  return sum / draws;
}

// The normal density a sigma off its mean is exp(-1/2) of its top: NIST/SEMATECH e-Handbook of
// Statistical Methods, 1.3.6.6.1.
TEST(ALikelihood, FallsAsTheNormalDensityInEachThing) {
  const Player player = *player_preset("county");
  const Likelihood likelihood(player, meant, 1, english());
  const double top = likelihood(came_out(meant, english()));
  const double radius_m = english().cue_ball.radius_m;
  for (const Slip& slip :
       {Slip{.direction_rad = player.direction_rad.sigma}, Slip{.pace = -player.pace.sigma},
        Slip{.tip_height_m = player.tip_height_m.sigma},
        Slip{.tip_side_m = -player.tip_side_m.sigma},
        Slip{.elevation_rad = player.elevation_rad.sigma}}) {
    const CameOut strike = came_out(played(meant, slip, english()), english());
    EXPECT_NEAR(likelihood(strike) / top, std::exp(-0.5), 1e-9);
  }
  const double root = std::sqrt(2 * std::numbers::pi);
  EXPECT_NEAR(top * player.direction_rad.sigma * player.pace.sigma * meant.cue_speed_mps *
                  (player.tip_height_m.sigma / radius_m) * (player.tip_side_m.sigma / radius_m) *
                  player.elevation_rad.sigma * root,
              1, 1e-9);
}

// A density's ratio to another, averaged over what the other draws, is 1 (importance sampling). The
// elevation here is half clipped at level; the carried cue widens the other's errors.
TEST(ALikelihood, BelongsToTheStrikesThatAreDrawn) {
  Player player = *player_preset("club");
  player.elevation_rad.sigma = 0.06;
  player.pace.bias = 0.01;
  EXPECT_NEAR(mean_ratio(player, meant), 1, 0.05);
  engine::Strike other = meant;
  other.elevation_rad = 0.02;
  other.height = 0.25;
  other.side = -0.12;
  other.cue_speed_mps = 1.55;
  EXPECT_NEAR(mean_ratio(player, other), 1, 0.05);
}

TEST(ALikelihood, SeesAnAngleAcrossTheTurn) {
  const Player player = *player_preset("club");
  engine::Strike across = meant;
  across.aim_rad = 3.1417 - 2 * std::numbers::pi;
  const Likelihood likelihood(player, meant, 1, english());
  EXPECT_GT(likelihood(came_out(across, english())), 0.5 * likelihood(came_out(meant, english())));
}

TEST(ALikelihood, KnowsAPlayerWhoNeverErrs) {
  Player player = *player_preset("club");
  player.pace.sigma = 0;
  const Likelihood likelihood(player, meant, 1, english());
  EXPECT_GT(likelihood(came_out(meant, english())), 0);
  engine::Strike harder = meant;
  harder.cue_speed_mps *= 1.01;
  EXPECT_EQ(likelihood(came_out(harder, english())), 0);
}

}  // namespace
}  // namespace ahead::coach
