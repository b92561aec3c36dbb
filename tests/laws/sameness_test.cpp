#include <algorithm>
#include <array>
#include <cstdio>
#include <numbers>
#include <thread>
#include <vector>

#include <gtest/gtest.h>

#include "engine/equipment/presets.h"
#include "tests/support/random_shots.h"
#include "tests/support/shot_facts.h"

// What must not make a difference: which side is left, when and on which thread a shot is played,
// and a ball that nobody touches.
namespace ahead::test {
namespace {

using engine::Playfield;
using engine::Shot;
using engine::Vec2;

const Playfield& field() {
  static const Playfield english(*engine::table_preset("english-7ft"));
  return english;
}

enum class Mirror { left_right, ends };

Vec2 mirrored(Vec2 p, Mirror mirror) {
  const engine::Table& table = field().table();
  return mirror == Mirror::left_right ? Vec2{table.width_m - p.x, p.y}
                                      : Vec2{p.x, table.length_m - p.y};
}

RandomShot mirrored(RandomShot shot, Mirror mirror) {
  for (Vec2& ball : shot.balls) ball = mirrored(ball, mirror);
  const double aim = shot.strike.aim_rad;
  shot.strike.aim_rad = mirror == Mirror::left_right ? std::numbers::pi - aim : -aim;
  shot.strike.side = -shot.strike.side;
  return shot;
}

int mirrored_pocket(int pocket, Mirror mirror) {
  constexpr std::array left_right{1, 0, 3, 2, 5, 4};
  constexpr std::array ends{4, 5, 2, 3, 0, 1};
  if (pocket < 0) return pocket;
  return (mirror == Mirror::left_right ? left_right : ends)[static_cast<std::size_t>(pocket)];
}

int contacts(const Shot& shot) {
  using enum engine::EventKind;
  return count_of(shot, ball_ball) + count_of(shot, group) + count_of(shot, cushion);
}

class AMirror : public ::testing::TestWithParam<Mirror> {};

TEST_P(AMirror, GivesTheMirroredShot) {
  Dice dice(401);
  double worst_m = 0;
  int simple = 0;
  for (int i = 0; i < 4000; ++i) {
    const RandomShot random = random_shot(dice, field().table());
    const Shot shot = simulate(field(), random.balls, random.strike);
    if (contacts(shot) > 3) continue;
    ++simple;
    const RandomShot twin = mirrored(random, GetParam());
    const Shot other = simulate(field(), twin.balls, twin.strike);
    for (std::size_t ball = 0; ball < shot.endings.size(); ++ball) {
      ASSERT_EQ(other.endings[ball].pocket, mirrored_pocket(shot.endings[ball].pocket, GetParam()))
          << in_code(random.balls, random.strike);
      ASSERT_EQ(other.endings[ball].off_table, shot.endings[ball].off_table);
      const double off_m = norm(plan(other.endings[ball].position) -
                                mirrored(plan(shot.endings[ball].position), GetParam()));
      ASSERT_LT(off_m, 1e-9) << in_code(random.balls, random.strike);
      worst_m = std::max(worst_m, off_m);
    }
  }
  EXPECT_GT(simple, 1000);
  std::printf("%d simple shots, largest difference %.2g m\n", simple, worst_m);
}

INSTANTIATE_TEST_SUITE_P(Of, AMirror, ::testing::Values(Mirror::left_right, Mirror::ends),
                         [](const auto& row) {
                           return row.param == Mirror::left_right ? "LeftAndRight" : "BothEnds";
                         });

std::vector<RandomShot> some_shots(std::uint64_t seed, int count) {
  Dice dice(seed);
  std::vector<RandomShot> shots;
  for (int i = 0; i < count; ++i) shots.push_back(random_shot(dice, field().table()));
  return shots;
}

TEST(TheSameShot, IsTheSameBitForBit) {
  for (const RandomShot& random : some_shots(402, 300)) {
    EXPECT_EQ(simulate(field(), random.balls, random.strike),
              simulate(field(), random.balls, random.strike));
  }
}

TEST(TheSameShot, IsTheSameOnEveryThread) {
  const std::vector<RandomShot> shots = some_shots(403, 200);
  const auto play_all = [&] {
    std::vector<Shot> played;
    for (const RandomShot& random : shots) {
      played.push_back(simulate(field(), random.balls, random.strike));
    }
    return played;
  };
  const std::vector<Shot> alone = play_all();
  std::array<std::vector<Shot>, 4> together;
  {
    std::vector<std::jthread> threads;
    for (auto& played : together) threads.emplace_back([&] { played = play_all(); });
  }
  for (const auto& played : together) EXPECT_EQ(played, alone);
}

TEST(ABallThatIsNeverTouched, ChangesNothing) {
  Dice dice(404);
  int untouched = 0;
  for (int i = 0; i < 1500; ++i) {
    const RandomShot with = random_shot(dice, field().table());
    const std::size_t last = with.balls.size() - 1;
    if (last < 2) continue;
    const Shot shot = simulate(field(), with.balls, with.strike);
    const bool touched = std::ranges::any_of(shot.events, [&](const engine::Event& event) {
      return event.ball == static_cast<int>(last) || event.other == static_cast<int>(last) ||
             (event.members >> last & 1U) != 0;
    });
    if (touched) continue;
    ++untouched;
    std::vector<Vec2> without = with.balls;
    without.pop_back();
    Shot expected = shot;
    expected.endings.pop_back();
    EXPECT_EQ(simulate(field(), without, with.strike), expected)
        << in_code(with.balls, with.strike);
  }
  EXPECT_GT(untouched, 300);
}

}  // namespace
}  // namespace ahead::test
