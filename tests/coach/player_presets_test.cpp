#include <gtest/gtest.h>

#include "coach/player/player.h"

namespace ahead::coach {
namespace {

TEST(PlayerPresets, GetSurerFromFirstToLast) {
  const auto ids = player_preset_ids();
  for (std::size_t i = 1; i < ids.size(); ++i) {
    const Player worse = player_preset(ids[i - 1]).value();
    const Player better = player_preset(ids[i]).value();
    EXPECT_LT(better.direction_rad.sigma, worse.direction_rad.sigma);
    EXPECT_LT(better.pace.sigma, worse.pace.sigma);
    EXPECT_LT(better.tip_height_m.sigma, worse.tip_height_m.sigma);
    EXPECT_LT(better.tip_side_m.sigma, worse.tip_side_m.sigma);
    EXPECT_LT(better.elevation_rad.sigma, worse.elevation_rad.sigma);
    EXPECT_LT(better.raised.factor, worse.raised.factor);
    EXPECT_GT(better.raised.factor, 1.0);
  }
}

TEST(PlayerPresets, SayWhereEachFigureComesFrom) {
  for (const auto id : player_preset_ids()) {
    const Player player = player_preset(id).value();
    for (const Error& error : {player.direction_rad, player.pace, player.tip_height_m,
                               player.tip_side_m, player.elevation_rad}) {
      EXPECT_FALSE(error.source.empty());
    }
    EXPECT_FALSE(player.raised.source.empty());
  }
}

TEST(PlayerPresets, AreFoundByTheirNamesOnly) {
  EXPECT_FALSE(player_preset("").has_value());
  EXPECT_FALSE(player_preset("Club").has_value());
}

}  // namespace
}  // namespace ahead::coach
