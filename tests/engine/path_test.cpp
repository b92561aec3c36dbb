#include "engine/simulate/path.h"

#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "tests/support/any.h"

namespace ahead::engine {
namespace {

using test::any::between;

constexpr Ball ball{.radius_m = 0.0254, .mass_kg = 0.116};

struct Going {
  BallState start;
  Phase phase;
  double lasts_s;
  Path path;
};

Going going(const BallState& start) {
  const Phase phase = phase_of(start, ball);
  const double lasts_s = phase_duration_s(phase, start, ball, {});
  return {start, phase, lasts_s, path_of(phase, start, ball, {}, lasts_s)};
}

BallState rolling(Vec2 v) {
  return {.position = {0, 0, ball.radius_m},
          .velocity = lift(v),
          .spin = lift(left_of(v) / ball.radius_m)};
}

TEST(APath, OfABallAtRestDoesNotMove) {
  EXPECT_FALSE(going({.position = {0, 0, 0.0254}}).path.moves);
}

TEST(APath, OfARollingBallIsStraight) { EXPECT_TRUE(going(rolling({0.7, -0.4})).path.straight); }

TEST(APath, OfAStunnedBallIsStraightAndOfAMassedOneIsNot) {
  EXPECT_TRUE(going({.position = {0, 0, 0.0254}, .velocity = {1, 0, 0}}).path.straight);
  const BallState massed{.position = {0, 0, 0.0254}, .velocity = {1, 0, 0}, .spin = {40, 0, 0}};
  EXPECT_FALSE(going(massed).path.straight);
}

// A strong screw shot that comes to a stop and returns may not be taken for a straight run.
TEST(APath, ThatTurnsBackIsNotStraight) {
  const BallState screwed{
      .position = {0, 0, 0.0254}, .velocity = {0.5, 0, 0}, .spin = {0, -150, 0}};
  EXPECT_FALSE(going(screwed).path.straight);
}

RC_GTEST_PROP(APath, IsTheMotionOfTheCentre, ()) {
  const Going g = going(test::any::on_bed(ball));
  const double t = between(0, 1) * g.lasts_s;
  const Vec3 there = advance(g.phase, g.start, ball, {}, t).position;
  RC_ASSERT(norm(g.path.p + t * (g.path.v + t * g.path.half_a) - there) < 1e-12);
}

RC_GTEST_PROP(APath, NeverLeavesItsLongestWay, ()) {
  const Going g = going(test::any::on_bed(ball));
  const double t = between(0, 1) * g.lasts_s;
  const Vec3 there = advance(g.phase, g.start, ball, {}, t).position;
  RC_ASSERT(norm(there - g.start.position) <= g.path.longest_way_m * (1 + 1e-12));
}

RC_GTEST_PROP(AStraightPath, KnowsWhenItHasCoveredADistance, ()) {
  const Going g = going(rolling(between(0.01, 6) * direction(test::any::angle_rad())));
  const double distance_m = between(0, 1) * g.path.reach_m;
  const double t = time_of(g.path, distance_m);
  const Vec3 there = advance(g.phase, g.start, ball, {}, t).position;
  RC_ASSERT(std::abs(norm(there - g.start.position) - distance_m) < 1e-9);
}

}  // namespace
}  // namespace ahead::engine
