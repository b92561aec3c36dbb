#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "tests/craft/scene.h"

// Facts of the trade: common practice, no source.
namespace ahead::test {
namespace {

using engine::Shot;
using engine::Vec2;

/// The cue ball off the right-hand cushion.
struct Rebound {
  double angle_rad = 0;  ///< from the cushion's square
  double speed_ratio = 0;
};

/// Plays a rolling ball into the right-hand cushion at `in_rad` from its square, up the table, with
/// side; the aim allows for the deflection, so that the ball's line is the same for all.
Rebound off_the_cushion(double in_rad, double side) {
  const engine::Playfield& field = field_of("english-7ft");
  const engine::Table& table = field.table();
  const std::array<Vec2, 1> balls{{{table.width_m - 0.15, 0.75 - 0.12 * std::tan(in_rad)}}};
  const double deflected = deflection_rad(side, table.cue_ball, table.cue);
  const Shot shot =
      simulate(field, balls,
               {.aim_rad = in_rad - deflected, .side = side, .height = 0.38, .cue_speed_mps = 1});
  for (const engine::Event& event : shot.events) {
    if (event.kind != engine::EventKind::cushion) continue;
    Rebound rebound;
    double speed_in = 0;
    for (const engine::Stretch& stretch : path_of(shot, 0)) {
      if (stretch.t1_s == event.t_s) speed_in = norm(state_at(stretch, table, event.t_s).velocity);
      if (stretch.t0_s == event.t_s) {
        const Vec2 out = plan(stretch.start.velocity);
        rebound = {std::atan2(out.y, -out.x), norm(out) / speed_in};
      }
    }
    return rebound;
  }
  ADD_FAILURE() << "no cushion was met";
  return {};
}

// Into a cushion on the right, going up: side on the left is running side.
constexpr double running = -0.3;
constexpr double check = 0.3;

TEST(RunningSide, WidensTheAngleOffACushionAndCheckSideNarrowsIt) {
  for (const double in_deg : {20.0, 35.0, 45.0}) {
    const double plain = off_the_cushion(in_deg * degrees, 0).angle_rad;
    EXPECT_GT(off_the_cushion(in_deg * degrees, running).angle_rad, plain + 3 * degrees) << in_deg;
    EXPECT_LT(off_the_cushion(in_deg * degrees, check).angle_rad, plain - 1 * degrees) << in_deg;
  }
}

TEST(CheckSide, LeavesTheBallSlowerThanRunningSide) {
  for (const double in_deg : {20.0, 35.0, 45.0}) {
    const double plain = off_the_cushion(in_deg * degrees, 0).speed_ratio;
    EXPECT_GT(off_the_cushion(in_deg * degrees, running).speed_ratio, plain) << in_deg;
    EXPECT_LT(off_the_cushion(in_deg * degrees, check).speed_ratio, plain) << in_deg;
  }
}

TEST(TheAngleIn, IsNotTheAngleOut) {
  const double in_rad = 40 * degrees;
  EXPECT_GT(std::abs(off_the_cushion(in_rad, 0).angle_rad - in_rad), 2 * degrees);
}

TEST(Side, SendsTheCueBallOffTheOtherWayTheMoreTheMoreSide) {
  const engine::Table& table = field_of("english-7ft").table();
  const auto squirt_deg = [&](double side) {
    return engine::deflection_rad(side, table.cue_ball, table.cue) / degrees;
  };
  EXPECT_GT(squirt_deg(0.2), squirt_deg(0.1));
  EXPECT_GT(squirt_deg(0.4), squirt_deg(0.2));
  EXPECT_EQ(squirt_deg(-0.3), -squirt_deg(0.3));
}

TEST(Side, OutlastsTheShot) {
  const engine::Playfield& field = field_of("english-7ft");
  const std::array<Vec2, 1> balls{{{0.45, 0.2}}};
  const Shot shot =
      simulate(field, balls, {.aim_rad = std::numbers::pi / 2, .side = 0.4, .cue_speed_mps = 0.7});
  const engine::BallState later =
      state_at(path_of(shot, 0).front(), field.table(), path_of(shot, 0).front().t1_s);
  EXPECT_GT(later.spin.z, 0.9 * shot.stretches.front().start.spin.z);
}

TEST(ALevelCue, HardlySwervesAndARaisedOneDoes) {
  const engine::Playfield& field = field_of("english-7ft");
  const std::array<Vec2, 1> balls{{{0.45, 0.3}}};
  const auto swerve_deg = [&](double elevation_rad) {
    const Shot shot = simulate(field, balls,
                               {.aim_rad = std::numbers::pi / 2,
                                .elevation_rad = elevation_rad,
                                .side = 0.3,
                                .cue_speed_mps = 0.8});
    const engine::BallState start = shot.stretches.front().start;
    return (angle_rad(plan(start.velocity)) -
            angle_rad(rolling_velocity_to_come(start, field.table().cue_ball))) /
           degrees;
  };
  EXPECT_NEAR(swerve_deg(0), 0, 0.01);
  EXPECT_GT(swerve_deg(6 * degrees), 1);
  EXPECT_GT(swerve_deg(12 * degrees), swerve_deg(6 * degrees) + 1);
}

}  // namespace
}  // namespace ahead::test
