#include <algorithm>
#include <vector>

#include <gtest/gtest.h>

#include "engine/equipment/presets.h"
#include "tests/support/random_shots.h"
#include "tests/support/shot_facts.h"

// What must not make a difference: when a shot is played, and a ball that nobody touches.
namespace ahead::test {
namespace {

using engine::Playfield;
using engine::Shot;
using engine::Vec2;

const Playfield& field() {
  static const Playfield english(*engine::table_preset("english-7ft"));
  return english;
}

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
