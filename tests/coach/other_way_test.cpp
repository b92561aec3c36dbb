#include "coach/pots/other_way.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "tests/coach/scene_of_balls.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

constexpr int bottom_left = 0;
constexpr int middle_right = 3;

std::vector<OtherWay> ways(const Layout& layout, const char* player = "county") {
  const Scene scene = scene_of(layout, ToPlay::red, *player_preset(player));
  const Position position = position_of(layout);
  return other_ways(scene, position, balls_on(scene.task, position.present), 1);
}

const OtherWay* find(const std::vector<OtherWay>& ways, int ball, int pocket, Means means) {
  const auto found = std::ranges::find_if(ways, [&](const OtherWay& way) {
    return way.ball == ball && way.pocket == pocket && way.how.means == means;
  });
  return found == ways.end() ? nullptr : &*found;
}

/// Red 1 on the way to the bottom-left pocket, red 2 behind it with `gap` m between them, the cue
/// ball a little behind both, all on one line.
Layout in_line(double gap) {
  Layout layout = test::layout_of({{"cue", {0, 0}}, {"red-1", {300, 300}}, {"red-2", {0, 0}}});
  const Vec2 red = layout.balls[1].at;
  const Vec2 back = engine::unit(red - layout.table.pockets[bottom_left].centre);
  layout.balls[2].at = red + (2 * layout.table.object_ball.radius_m + gap) * back;
  layout.balls[0].at = red + 0.35 * back;
  return layout;
}

TEST(APlant, ThatPointsAtThePocketIsFound) {
  const auto found = ways(in_line(0.03));

  const OtherWay* plant = find(found, 1, bottom_left, Means::plant);
  ASSERT_NE(plant, nullptr);
  EXPECT_EQ(plant->how.by, std::vector<int>{2});
  EXPECT_EQ(plant->how.cushions, 0);
}

// Common practice, no source: balls that touch and point at the pocket are a set; it goes more
// easily than a plant with a gap, since only their line matters.
TEST(ASet, GoesMoreEasilyThanAPlantWithAGap) {
  const auto touching = ways(in_line(0.0001));
  const auto apart = ways(in_line(0.08));

  const OtherWay* set = find(touching, 1, bottom_left, Means::set);
  const OtherWay* plant = find(apart, 1, bottom_left, Means::plant);
  ASSERT_NE(set, nullptr);
  ASSERT_NE(plant, nullptr);
  EXPECT_GT(set->to_rad - set->from_rad, plant->to_rad - plant->from_rad);
  EXPECT_GT(set->pot.value, plant->pot.value);
}

// Mirror geometry: the ball meets the left cushion half way up and comes across into the opposite
// middle pocket.
TEST(ACrossDouble, IsFound) {
  const Layout layout =
      test::layout_of({{"cue", {520, 1420}}, {"red-1", {300, 1150}}, {"black", {700, 300}}});

  const auto found = ways(layout);

  const OtherWay* way = find(found, 1, middle_right, Means::cross_double);
  ASSERT_NE(way, nullptr);
  EXPECT_EQ(way->how.cushions, 1);
}

// The red is hidden from its pocket's line; the cue ball goes on to it from another ball.
TEST(ACannon, IsFoundOntoAHanger) {
  const Layout layout = test::layout_of(
      {{"cue", {457, 700}}, {"red-1", {30, 30}}, {"red-2", {330, 430}}, {"black", {700, 1500}}});

  const auto found = ways(layout);

  const OtherWay* way = find(found, 1, bottom_left, Means::cannon);
  ASSERT_NE(way, nullptr);
  EXPECT_EQ(way->how.by, std::vector<int>{2});
}

// Whatever is stated was seen to go: the strike through the middle pots the ball, played once more.
TEST(AnOtherWay, GoesWhenPlayedAsStated) {
  const Layout layout = test::layout_of({{"cue", {430, 620}},
                                         {"red-1", {150, 1040}},
                                         {"red-2", {800, 250}},
                                         {"red-3", {720, 1080}},
                                         {"red-4", {200, 260}},
                                         {"yellow-1", {500, 1740}},
                                         {"black", {457, 1372}}});
  const engine::Playfield field(layout.table);
  const auto found = ways(layout);

  ASSERT_GT(found.size(), 2U);
  for (const OtherWay& way : found) {
    const Played played = play(field, position_of(layout), way.strike);
    EXPECT_EQ(played.shot.endings[static_cast<std::size_t>(way.ball)].pocket, way.pocket);
    EXPECT_LT(way.from_rad, way.to_rad);
  }
}

}  // namespace
}  // namespace ahead::coach
