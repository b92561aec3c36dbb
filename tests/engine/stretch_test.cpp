#include "engine/simulate/stretch.h"

#include <array>

#include <gtest/gtest.h>

#include "engine/equipment/presets.h"
#include "engine/simulate/simulate.h"

namespace ahead::engine {
namespace {

const Playfield& field() {
  static const Playfield english(*table_preset("english-7ft"));
  return english;
}

Shot cut_shot() {
  const std::array<Vec2, 2> balls{{{0.45, 0.4}, {0.47, 1.0}}};
  return simulate(field(), balls, {.aim_rad = 1.56, .height = 0.2, .cue_speed_mps = 1.5});
}

TEST(ARecordedPath, HasNoGapInTimeOrPlace) {
  const Shot shot = cut_shot();
  for (const int ball : {0, 1}) {
    const auto path = path_of(shot, ball);
    ASSERT_GT(path.size(), 1U);
    for (std::size_t i = 1; i < path.size(); ++i) {
      EXPECT_EQ(path[i - 1].t1_s, path[i].t0_s);
      const BallState end = state_at(path[i - 1], field().table(), path[i - 1].t1_s);
      EXPECT_LT(norm(end.position - path[i].start.position), 1e-9);
    }
  }
}

TEST(ARecordedPath, EndsWhereTheBallEnds) {
  const Shot shot = cut_shot();
  for (const int ball : {0, 1}) {
    const Stretch last = path_of(shot, ball).back();
    const BallState end = state_at(last, field().table(), last.t1_s);
    EXPECT_LT(norm(end.position - shot.endings[static_cast<std::size_t>(ball)].position), 1e-9);
  }
}

TEST(ARecordedPath, OfTheCueBallBeginsWithTheStrike) {
  const Stretch first = path_of(cut_shot(), 0).front();
  EXPECT_EQ(first.t0_s, 0);
  EXPECT_EQ(first.start.position.x, 0.45);
  EXPECT_GT(first.start.velocity.y, 1);
}

TEST(TheCueBall, IsTheBallOfIndexNought) {
  EXPECT_EQ(ball_of(field().table(), 0), field().table().cue_ball);
  EXPECT_EQ(ball_of(field().table(), 3), field().table().object_ball);
}

}  // namespace
}  // namespace ahead::engine
