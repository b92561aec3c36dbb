#include "engine/equipment/presets.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/simulate/simulate.h"

// Sizes and their sources: docs/equipment.md.
namespace ahead::engine {
namespace {

constexpr double pi = std::numbers::pi;

class APreset : public ::testing::TestWithParam<std::string_view> {
 protected:
  const Table table = *table_preset(GetParam());
};

INSTANTIATE_TEST_SUITE_P(Of, APreset, ::testing::ValuesIn(table_preset_ids()), [](const auto& id) {
  std::string name(id.param);
  std::ranges::replace(name, '-', '_');
  return name;
});

TEST_P(APreset, CarriesItsIdAndSaysWhatItAssumes) {
  EXPECT_EQ(table.id, GetParam());
  EXPECT_FALSE(table.notes.empty());
}

TEST_P(APreset, HasSixPocketsInTheirOrder) {
  ASSERT_EQ(table.pockets.size(), 6U);
  for (std::size_t i = 0; i < 6; ++i) EXPECT_EQ(static_cast<std::size_t>(table.pockets[i].name), i);
}

TEST_P(APreset, IsTwiceAsLongAsWide) {
  const double ratio = table.length_m / table.width_m;
  // The twelve-foot table is 3569 by 1778 mm by rule.
  EXPECT_NEAR(ratio, table.id == "snooker-12ft" ? 2.0073 : 2.0, 1e-4);
}

TEST_P(APreset, HasAPlausibleNoseAndPlausibleBalls) {
  const auto plausible = [&](const Ball& ball) {
    const double volume_cm3 = 1e6 * 4.0 / 3.0 * pi * std::pow(ball.radius_m, 3);
    const double density = 1000 * ball.mass_kg / volume_cm3;
    EXPECT_GT(density, 1.58);
    EXPECT_LT(density, 1.90);
  };
  plausible(table.cue_ball);
  plausible(table.object_ball);
  const double nose = table.nose_height_m / (2 * table.object_ball.radius_m);
  EXPECT_GT(nose, 0.60);
  EXPECT_LT(nose, 0.72);
}

TEST_P(APreset, KeepsItsNosesOutOfThePockets) {
  for (const Rail& rail : table.rails) {
    const auto* nose = std::get_if<RailSegment>(&rail);
    if (nose == nullptr || norm(nose->to - nose->from) < 0.3) continue;
    const NoseLine line = nose_line({*nose});
    for (const Pocket& pocket : table.pockets) {
      EXPECT_GT(norm(nearest_on(line, pocket.centre) - pocket.centre), pocket.fall_radius_m);
    }
  }
}

TEST_P(APreset, OpensEveryPocketForTheWiderBall) {
  const double R = std::max(table.cue_ball.radius_m, table.object_ball.radius_m);
  for (const Pocket& pocket : table.pockets) EXPECT_GT(pocket.fall_radius_m, 1.3 * R);
}

/// Where a ball comes from when it is rolled straight into a pocket.
Vec2 in_front_of(const Table& table, const Pocket& pocket) {
  const Vec2 middle{table.width_m / 2, table.length_m / 2};
  const bool is_middle =
      pocket.name == PocketName::middle_left || pocket.name == PocketName::middle_right;
  const Vec2 corner{pocket.centre.x < middle.x ? 0 : table.width_m,
                    pocket.centre.y < middle.y ? 0 : table.length_m};
  const Vec2 axis = is_middle ? unit(Vec2{middle.x - pocket.centre.x, 0})
                              : unit(Vec2{corner.x == 0 ? 1.0 : -1.0, corner.y == 0 ? 1.0 : -1.0});
  return pocket.centre + 0.35 * axis;
}

TEST_P(APreset, TakesEitherBallThatIsRolledStraightIntoAnyPocket) {
  const Playfield field(table);
  for (int which : {0, 1}) {
    const Ball& ball = which == 0 ? table.cue_ball : table.object_ball;
    for (const Pocket& pocket : table.pockets) {
      const Vec2 from = in_front_of(table, pocket);
      const Vec2 v = 0.7 * unit(pocket.centre - from);
      BallState rolling{.position = lift(from, ball.radius_m),
                        .velocity = lift(v),
                        .spin = lift(left_of(v) / ball.radius_m)};
      // The other ball waits at the middle of the table's far half.
      const Ball& waits = which == 0 ? table.object_ball : table.cue_ball;
      const double far_y = pocket.centre.y < table.length_m / 2 ? 0.7 : 0.3;
      BallState other{.position = {table.width_m / 2, far_y * table.length_m, waits.radius_m}};
      if (which == 1) std::swap(rolling, other);
      const std::array balls{rolling, other};

      const Shot shot = simulate_from(field, balls);

      const Ending& end = shot.endings[static_cast<std::size_t>(which)];
      EXPECT_EQ(end.pocket, static_cast<int>(pocket.name));
      EXPECT_EQ(std::ranges::count(shot.events, EventKind::cushion, &Event::kind), 0);
    }
  }
}

TEST(ThePresets, HaveThePlayingAreasOfTheirSources) {
  const auto area = [](std::string_view id) {
    const Table table = *table_preset(id);
    return std::pair{table.length_m, table.width_m};
  };
  constexpr double inch = 0.0254;
  EXPECT_EQ(area("american-9ft"), std::pair(2.540, 1.270));
  EXPECT_NEAR(area("american-8ft").first, 92 * inch, 1e-9);
  EXPECT_NEAR(area("american-7ft").first, 78 * inch, 1e-9);
  EXPECT_NEAR(area("english-7ft").first, 72 * inch, 1e-9);
  EXPECT_NEAR(area("english-6ft").first, 60 * inch, 1e-9);
  EXPECT_NEAR(area("english-8ft").first, 84 * inch, 1e-9);
  EXPECT_EQ(area("snooker-12ft"), std::pair(3.569, 1.778));
}

TEST(TheEnglishTable, HasItsBaulkLineAtAFifthAndItsSpotAtThreeQuarters) {
  const Table table = *table_preset("english-7ft");
  EXPECT_NEAR(table.markings.baulk_line_m, 0.36576, 1e-9);
  EXPECT_NEAR(table.markings.spot.y, 1.3716, 1e-9);
  EXPECT_NEAR(table.markings.spot.x, table.width_m / 2, 1e-9);
}

TEST(TheEnglishTable, HasASmallerLighterCueBallAndItsMatchTwinDoesNot) {
  const Table pub = *table_preset("english-7ft");
  EXPECT_NEAR(pub.cue_ball.mass_kg / pub.object_ball.mass_kg, 0.8103, 1e-4);
  // Touching on the bed: 49.2 mm between centres, 49.174 mm in plan.
  EXPECT_NEAR(2 * std::sqrt(pub.cue_ball.radius_m * pub.object_ball.radius_m), 0.049174, 1e-6);
  const Table match = *table_preset("english-7ft-match");
  EXPECT_EQ(match.cue_ball, match.object_ball);
  EXPECT_EQ(match.rails, pub.rails);
}

TEST(TheEnglishTable, HasPocketsOfOnePointSixBalls) {
  const Table table = *table_preset("english-7ft");
  for (const Pocket& pocket : table.pockets) {
    EXPECT_NEAR(2 * pocket.fall_radius_m, 1.6 * 0.0508, 1e-9);
  }
}

/// Ends of straight noses: where a pocket's mouth is measured, "pointed lip to pointed lip".
std::vector<Vec2> lips(const Table& table) {
  std::vector<Vec2> ends;
  for (const Rail& rail : table.rails) {
    const auto* nose = std::get_if<RailSegment>(&rail);
    if (nose == nullptr || norm(nose->to - nose->from) < 0.3) continue;
    ends.push_back(nose->from);
    ends.push_back(nose->to);
  }
  return ends;
}

/// Distance between the two lips that are nearest to the pocket, m.
double mouth_m(const Table& table, const Pocket& pocket) {
  std::vector<Vec2> ends = lips(table);
  std::ranges::sort(ends, {}, [&](Vec2 lip) { return norm(lip - pocket.centre); });
  return norm(ends.at(0) - ends.at(1));
}

// World body: corner 4.5 to 4.625 in, middle 5 to 5.125 in.
TEST(TheAmericanTable, HasItsMouthsInTheBandsOfTheRules) {
  for (const char* id : {"american-7ft", "american-8ft", "american-9ft"}) {
    const Table table = *table_preset(id);
    ASSERT_EQ(lips(table).size(), 12U);
    for (const Pocket& pocket : table.pockets) {
      const bool middle =
          pocket.name == PocketName::middle_left || pocket.name == PocketName::middle_right;
      EXPECT_GE(mouth_m(table, pocket), middle ? 0.1270 : 0.1143) << id;
      EXPECT_LE(mouth_m(table, pocket), middle ? 0.130175 : 0.117475) << id;
    }
  }
}

TEST(TheAmericanTable, HasItsNoseInTheBandOfTheRules) {
  const double share = table_preset("american-9ft")->nose_height_m / 0.05715;
  EXPECT_GE(share, 0.625);
  EXPECT_LE(share, 0.645);
}

TEST(AnUnknownTable, IsNotFound) { EXPECT_FALSE(table_preset("english-5ft")); }

}  // namespace
}  // namespace ahead::engine
