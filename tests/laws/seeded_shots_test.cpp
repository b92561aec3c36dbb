#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <thread>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/equipment/presets.h"
#include "tests/laws/laws.h"
#include "tests/support/shot_facts.h"

// Fifty thousand shots, and what their judge is worth. `./dev soak` plays a million.
namespace ahead::test {
namespace {

using ::testing::HasSubstr;

engine::Shot played(const SeededShot& seeded) {
  return simulate(*seeded.field, seeded.balls, seeded.strike);
}

constexpr std::uint64_t block = 5000;

class ASeededShot : public ::testing::TestWithParam<std::uint64_t> {};

TEST_P(ASeededShot, KeepsEveryLaw) {
  std::uint64_t proves_nothing = 0;
  for (std::uint64_t seed = GetParam() * block; seed < (GetParam() + 1) * block; ++seed) {
    const SeededShot seeded = seeded_shot(seed);
    // The mirror and the cut cost four times the rest.
    const Judgement judgement = seed % 5 == 0 ? judged(seeded) : judged(seeded, played(seeded));
    ASSERT_EQ(judgement.broken, "")
        << "seed " << seed << ": " << in_code(seeded.balls, seeded.strike);
    proves_nothing += judgement.knife_edge || judgement.sank ? 1 : 0;
  }
  EXPECT_LT(proves_nothing, block / 5 / 100);
}

INSTANTIATE_TEST_SUITE_P(Block, ASeededShot, ::testing::Range<std::uint64_t>(0, 10));

// A flying ball that hopped for ever between two jaws; balls that slid over each other and sank
// with every contact; followers that went on differently after a cut.
TEST(TheSeededShots, ThatOnceBrokeALawInAMillionKeepItNow) {
  for (const std::uint64_t seed :
       {981904, 52237, 170525, 242100, 290629, 580357, 582627, 693650, 977522, 62501, 630317}) {
    EXPECT_EQ(judged(seeded_shot(seed)).broken, "") << "seed " << seed;
  }
}

TEST(TheSeededShots, HoldWhatTheyPromise) {
  std::array<int, 17> with_balls{};
  int pots = 0;
  int jumps = 0;
  int lost = 0;
  int groups = 0;
  int in_mouths = 0;
  for (std::uint64_t seed = 0; seed < 2000; ++seed) {
    const SeededShot seeded = seeded_shot(seed);
    ++with_balls.at(seeded.balls.size());
    const engine::Table& table = seeded.field->table();
    in_mouths += static_cast<int>(std::ranges::count_if(seeded.balls, [&](engine::Vec2 at) {
      return std::ranges::any_of(table.pockets, [&](const engine::Pocket& pocket) {
        return norm(at - pocket.centre) < pocket.fall_radius_m + table.object_ball.radius_m;
      });
    }));
    const engine::Shot shot = played(seeded);
    using enum engine::EventKind;
    pots += count_of(shot, pot);
    jumps += count_of(shot, bed);
    lost += count_of(shot, off_table);
    groups += count_of(shot, group);
  }
  for (std::size_t balls = 1; balls < with_balls.size(); ++balls) {
    EXPECT_GT(with_balls.at(balls), 0) << balls;
  }
  for (const int count : {pots, jumps, lost, groups, in_mouths}) EXPECT_GT(count, 100);
}

TEST(TheSeededShots, AreTheSameOnAnyNumberOfThreads) {
  constexpr std::uint64_t count = 1000;
  std::vector<std::uint64_t> alone(count);
  for (std::uint64_t seed = 0; seed < count; ++seed)
    alone[seed] = digest(played(seeded_shot(seed)));
  for (const std::uint64_t threads : {2, 5}) {
    std::vector<std::uint64_t> together(count);
    {
      std::vector<std::jthread> workers;
      for (std::uint64_t first = 0; first < threads; ++first) {
        workers.emplace_back([&, first] {
          for (std::uint64_t seed = first; seed < count; seed += threads) {
            together[seed] = digest(played(seeded_shot(seed)));
          }
        });
      }
    }
    EXPECT_EQ(together, alone) << threads << " threads";
  }
}

/// One ball to the top cushion and back, another out of its way.
SeededShot a_quiet_shot() {
  static const engine::Playfield field(*engine::table_preset("english-7ft"));
  return {.field = &field,
          .balls = {{0.45, 0.6}, {0.2, 0.4}},
          .strike = {.aim_rad = std::numbers::pi / 2 - 0.05, .cue_speed_mps = 1.5},
          .cut_share = 0.3};
}

class TheJudge : public ::testing::Test {
 protected:
  const SeededShot seeded = a_quiet_shot();
  engine::Shot shot = played(seeded);

  [[nodiscard]] std::string verdict() const { return judged(seeded, shot).broken; }
};

TEST_F(TheJudge, FindsNothingInAShotThatIsRight) {
  ASSERT_GE(shot.stretches.size(), 4U);
  EXPECT_EQ(judged(seeded).broken, "");
}

TEST_F(TheJudge, NoticesWhatIsNoNumber) {
  shot.stretches[1].start.spin.y = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THAT(verdict(), HasSubstr("a number that is none"));
}

TEST_F(TheJudge, NoticesTimeThatRunsBackwards) {
  std::swap(shot.events.front(), shot.events.back());
  EXPECT_THAT(verdict(), HasSubstr("not in order of time"));
}

TEST_F(TheJudge, NoticesAShotThatWasGivenUp) {
  shot.stuck = 1;
  EXPECT_THAT(verdict(), HasSubstr("does not end by itself"));
}

TEST_F(TheJudge, NoticesABallThatEndsInACushion) {
  shot.endings[0].position.x = 0.01;
  EXPECT_THAT(verdict(), HasSubstr("ends nowhere"));
}

TEST_F(TheJudge, NoticesABallThatComesBack) {
  shot.events.insert(shot.events.begin() + 1, {.kind = engine::EventKind::pot, .place = 1});
  EXPECT_THAT(verdict(), HasSubstr("comes back"));
}

TEST_F(TheJudge, NoticesEnergyFromNowhere) {
  shot.stretches[1].start.velocity = 1.5 * shot.stretches[1].start.velocity;
  EXPECT_THAT(verdict(), HasSubstr("gains energy"));
}

TEST_F(TheJudge, NoticesBallsThatOverlap) {
  SeededShot with_a_ball_in_the_way = seeded;
  with_a_ball_in_the_way.balls[1] = plan(shot.stretches[1].start.position) + engine::Vec2{0.02, 0};
  EXPECT_THAT(judged(with_a_ball_in_the_way, shot).broken, HasSubstr("balls that overlap"));
}

TEST_F(TheJudge, NoticesABallInsideACushion) {
  for (engine::Stretch& stretch : shot.stretches) stretch.start.position.y += 2e-6;
  EXPECT_THAT(verdict(), HasSubstr("inside a cushion"));
}

// A table that is no mirror image of itself stands for an engine that treats its sides unequally.
TEST_F(TheJudge, NoticesAShotThatIsNotItsMirrorImage) {
  engine::Table table = seeded.field->table();
  table.rails.push_back(engine::RailSegment{{0.6, 0.9}, {0.6, 1.1}});
  const engine::Playfield lopsided(table);
  SeededShot across = seeded;
  across.field = &lopsided;
  across.strike.aim_rad = 0.7;
  EXPECT_THAT(judged(across).broken, HasSubstr("not its mirror image"));
}

}  // namespace
}  // namespace ahead::test
