#include "engine/contact/rolling_rebound.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>

#include <gtest/gtest.h>

#include "engine/contact/cushion.h"
#include "engine/equipment/presets.h"
#include "tests/support/dice.h"

// The table of rolling rebounds against the integration that it was read from.
namespace ahead::engine {
namespace {

using test::Dice;

BallState rolling(const Ball& ball, double speed_mps, double way_rad, double side_radps) {
  const Vec2 velocity = speed_mps * direction(way_rad);
  return {.position = {0, 0, ball.radius_m},
          .velocity = lift(velocity),
          .spin = lift(left_of(velocity) / ball.radius_m, side_radps)};
}

/// Largest difference in any component, spin as surface speed, as a share of the incoming speed.
double difference(const BallState& a, const BallState& b, const Ball& ball, double speed_mps) {
  const Vec3 v = a.velocity - b.velocity;
  const Vec3 w = ball.radius_m * (a.spin - b.spin);
  return std::max({std::abs(v.x), std::abs(v.y), std::abs(v.z), std::abs(w.x), std::abs(w.y),
                   std::abs(w.z)}) /
         speed_mps;
}

double worst_difference(const Table& table, const Ball& ball, std::uint64_t seed) {
  const RollingRebound curve(ball, table.nose_height_m, table.cushion, table.cloth);
  const Tilt tilt = nose_tilt(ball, table.nose_height_m);
  Dice dice(seed);
  double worst = 0;
  for (int i = 0; i < 300; ++i) {
    const double towards_rad = dice.between(-std::numbers::pi, std::numbers::pi);
    const double off_square_rad = dice.between(-1.5, 1.5);
    const double speed_mps = dice.between(0.1, 6);
    const double side = i % 3 == 0 ? 0 : dice.between(-2, 2);
    const Vec2 toward = direction(towards_rad);
    const BallState before =
        rolling(ball, speed_mps, towards_rad + off_square_rad, side * speed_mps / ball.radius_m);
    const BallState exact = rebounded(before, ball, lift(tilt.cos * toward, tilt.sin), Support::bed,
                                      table.cushion, table.cloth);
    worst = std::max(worst, difference(curve.rebounded(before, toward), exact, ball, speed_mps));
  }
  return worst;
}

TEST(TheRollingRebound, IsTheIntegratedOneOnEveryTableForBothBalls) {
  for (const std::string_view id : table_preset_ids()) {
    const Table table = *table_preset(id);
    const double cue_ball = worst_difference(table, table.cue_ball, 1);
    const double object_ball = worst_difference(table, table.object_ball, 2);
    std::printf("%s: off by %.2g (cue ball), %.2g (object ball)\n", table.id.c_str(), cue_ball,
                object_ball);
    EXPECT_LT(cue_ball, 5e-6) << id;
    EXPECT_LT(object_ball, 5e-6) << id;
  }
}

TEST(TheRollingRebound, OfMirrorImagesIsMirrored) {
  const Table table = *table_preset("english-7ft");
  const RollingRebound curve(table.cue_ball, table.nose_height_m, table.cushion, table.cloth);
  for (const double off_rad : {0.2, 0.7, 1.3}) {
    const BallState left = curve.rebounded(rolling(table.cue_ball, 1.5, off_rad, 20), {1, 0});
    const BallState right = curve.rebounded(rolling(table.cue_ball, 1.5, -off_rad, -20), {1, 0});
    EXPECT_DOUBLE_EQ(left.velocity.x, right.velocity.x);
    EXPECT_DOUBLE_EQ(left.velocity.y, -right.velocity.y);
    EXPECT_DOUBLE_EQ(left.spin.x, -right.spin.x);
    EXPECT_DOUBLE_EQ(left.spin.y, right.spin.y);
    EXPECT_DOUBLE_EQ(left.spin.z, -right.spin.z);
  }
}

}  // namespace
}  // namespace ahead::engine
