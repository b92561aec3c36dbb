#include "engine/simulate/next_contact.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "engine/contact/cushion.h"
#include "engine/equipment/presets.h"
#include "tests/support/any.h"

// Every contact time is held against a walk along the path in small steps: until then there is no
// overlap, and then there is contact.
namespace ahead::engine {
namespace {

using test::any::between;

const Table& table() {
  static const Table english = *table_preset("english-7ft");
  return english;
}
const NoseLine& nose() {
  static const NoseLine line = nose_line(table().rails);
  return line;
}
double reach_m(const Ball& ball) { return nose_reach_m(ball, table().nose_height_m); }

struct Going {
  BallState start;
  Phase phase;
  double lasts_s;
  Path path;
};

Going going(const BallState& start, const Ball& ball) {
  const Phase phase = phase_of(start, ball);
  const double lasts_s = phase_duration_s(phase, start, ball, table().cloth);
  return {start, phase, lasts_s, path_of(phase, start, ball, table().cloth, lasts_s)};
}

BallState somewhere(const Ball& ball) {
  BallState state = test::any::on_bed(ball);
  state.position.x = between(0.03, table().width_m - 0.03);
  state.position.y = between(0.03, table().length_m - 0.03);
  if (*rc::gen::inRange(0, 3) == 0) {
    const Vec2 spin = left_of(plan(state.velocity)) / ball.radius_m;
    state.spin = {spin.x, spin.y, 0};
  }
  return state;
}

Vec3 at(const Path& path, double t) { return path.p + t * (path.v + t * path.half_a); }

/// Walks from now to `until` and asks that `gap` stays open, up to what slow contacts may sink.
void expect_open(const std::function<double(double)>& gap, double until) {
  constexpr int steps = 2000;
  if (until == never) return;  // a ball at rest
  for (int i = 0; i < steps; ++i) RC_ASSERT(gap(until * i / steps) > -2 * sink_m);
}

RC_GTEST_PROP(TwoBallsOnTheBed, MeetWhenTheirGapCloses, ()) {
  const Going first = going(somewhere(table().cue_ball), table().cue_ball);
  BallState other = somewhere(table().object_ball);
  // Half of the time the other ball is at rest.
  if (*rc::gen::arbitrary<bool>()) other = {.position = other.position};
  const Going second = going(other, table().object_ball);
  const double touch_m = table().cue_ball.radius_m + table().object_ball.radius_m;
  RC_PRE(norm(first.start.position - other.position) > touch_m + 1e-6);
  const auto gap = [&](double t) { return norm(at(first.path, t) - at(second.path, t)) - touch_m; };
  const double both_s = std::min(first.lasts_s, second.lasts_s);

  const double t = next_meeting(first.path, second.path, touch_m);

  expect_open(gap, std::min(t, both_s));
  RC_CLASSIFY(t != never, "they meet");
  if (t != never) RC_ASSERT(std::abs(gap(t)) < 1e-9);
}

/// Two balls that are sure to come close: one is sent at the other, more or less.
RC_GTEST_PROP(ABallSentAtAnother, MeetsItWhenTheGapCloses, ()) {
  const Ball& ball = table().object_ball;
  BallState start = somewhere(ball);
  const BallState other{.position = {between(0.03, 0.88), between(0.03, 1.8), ball.radius_m}};
  const Vec2 line = plan(other.position - start.position);
  RC_PRE(norm(line) > 2.1 * ball.radius_m);
  const double off = between(-1.1, 1.1) * std::asin(2 * ball.radius_m / norm(line));
  const double v = between(0.3, 6);
  start.velocity = lift(v * direction(angle_rad(line) + off));
  const Going first = going(start, ball);
  const Going second = going(other, ball);
  const auto gap = [&](double t) {
    return norm(at(first.path, t) - other.position) - 2 * ball.radius_m;
  };

  const double t = next_meeting(first.path, second.path, 2 * ball.radius_m);

  expect_open(gap, std::min(t, first.lasts_s));
  RC_CLASSIFY(t != never, "they meet");
  if (t != never) RC_ASSERT(std::abs(gap(t)) < 1e-9);
}

RC_GTEST_PROP(ABallOnTheBed, MeetsTheNoseAtItsReach, ()) {
  const Ball& ball = *rc::gen::arbitrary<bool>() ? table().cue_ball : table().object_ball;
  BallState start = somewhere(ball);
  // Beside the jaws too: some starts lie in the mouth of a pocket.
  if (*rc::gen::inRange(0, 4) == 0) {
    start.position.x = between(-0.02, 0.08);
    start.position.y = between(-0.02, 0.08) + (*rc::gen::arbitrary<bool>() ? 0.9 : 0.0);
  }
  const double reach = reach_m(ball);
  const auto gap_at = [&](Vec2 p) { return norm(nearest_on(nose(), p) - p) - reach; };
  RC_PRE(gap_at(plan(start.position)) > 1e-6);
  const Going g = going(start, ball);
  const auto gap = [&](double t) { return gap_at(plan(at(g.path, t))); };

  const NoseContact contact = next_nose(g.path, nose(), table(), ball, reach);

  expect_open(gap, std::min(contact.t_s, g.lasts_s));
  RC_CLASSIFY(contact.t_s != never, "it meets the nose");
  if (contact.t_s != never) {
    const Vec2 there = plan(at(g.path, contact.t_s));
    RC_ASSERT(std::abs(gap(contact.t_s)) < 1e-9);
    RC_ASSERT(norm(contact.nose - nearest_on(nose(), there)) < 1e-12);
  }
}

RC_GTEST_PROP(ABallInTheAir, MeetsTheNoseInSpace, ()) {
  const Ball& ball = table().object_ball;
  BallState start = somewhere(ball);
  start.position.z += between(0.0005, 0.06);
  start.velocity.z = between(-1, 1);
  const auto gap_at = [&](Vec3 p) {
    return norm(lift(nearest_on(nose(), plan(p)), table().nose_height_m) - p) - ball.radius_m;
  };
  RC_PRE(gap_at(start.position) > 1e-6);
  const Going g = going(start, ball);

  const NoseContact contact = next_nose(g.path, nose(), table(), ball, reach_m(ball));

  // Beyond the nose the ball is off the table; the walk ends there.
  const double ends_s = std::min({contact.t_s, g.lasts_s, next_exit(g.path, nose(), table())});
  for (int i = 0; i < 2000; ++i) {
    RC_ASSERT(gap_at(at(g.path, ends_s * i / 2000)) > -1e-7);
  }
  if (contact.t_s != never) RC_ASSERT(std::abs(gap_at(at(g.path, contact.t_s))) < 2e-8);
}

RC_GTEST_PROP(ABallOnTheBed, DropsWhenItsCentreEntersAFall, ()) {
  const Ball& ball = table().object_ball;
  const Pocket& pocket = table().pockets[*rc::gen::inRange<std::size_t>(0, 6)];
  BallState start = somewhere(ball);
  const Vec2 line = pocket.centre - plan(start.position);
  start.velocity = lift(between(0.2, 5) * direction(angle_rad(line) + between(-0.2, 0.2)));
  const Going g = going(start, ball);
  const auto gap = [&](double t) {
    double least = 10;
    for (const Pocket& p : table().pockets) {
      least = std::min(least, norm(plan(at(g.path, t)) - p.centre) - p.fall_radius_m);
    }
    return least;
  };

  const PocketEntry entry = next_pocket(g.path, table(), ball);

  expect_open(gap, std::min(entry.t_s, g.lasts_s));
  RC_CLASSIFY(entry.t_s != never, "it drops");
  if (entry.t_s != never) RC_ASSERT(std::abs(gap(entry.t_s)) < 1e-9);
}

TEST(AHighBall, FliesOverAPocket) {
  const Ball& ball = table().object_ball;
  const Pocket& pocket = table().pockets[2];
  const BallState high{.position = {0.1, pocket.centre.y, 0.09}, .velocity = {-3, 0, 1}};
  EXPECT_EQ(next_pocket(going(high, ball).path, table(), ball).t_s, never);
  const BallState low{.position = {0.1, pocket.centre.y, 0.045}, .velocity = {-3, 0, 0}};
  EXPECT_EQ(next_pocket(going(low, ball).path, table(), ball).pocket, 2);
}

TEST(AHighBall, ThatRoseOnItsWayDropsWhenItIsTwoRadiiUpAgain) {
  const Ball ball;
  const Pocket& pocket = table().pockets[2];
  const BallState rising{.position = {0.1, pocket.centre.y, 0.03}, .velocity = {-0.7, 0, 0.9}};
  const Path path = going(rising, ball).path;
  const PocketEntry entry = next_pocket(path, table(), ball);
  ASSERT_EQ(entry.pocket, 2);
  EXPECT_NEAR(at(path, entry.t_s).z, 2 * ball.radius_m, 1e-12);
  EXPECT_LT((path.v + 2 * entry.t_s * path.half_a).z, 0);
}

TEST(AHighBall, LeavesTheTableWhereItCrossesTheNose) {
  const Ball& ball = table().object_ball;
  const BallState high{.position = {0.1, 0.5, 0.06}, .velocity = {-2, 0, 1}};
  EXPECT_NEAR(next_exit(going(high, ball).path, nose(), table()), 0.05, 1e-12);
}

// A ball frozen to a cushion that curves away from it and comes back on the far side of a middle
// pocket: the second rail lies on the line that the ball touches from the start.
TEST(ACurvedPath, ComesBackToARailOnWhoseLineItBegan) {
  const Ball& ball = table().cue_ball;
  const double reach = reach_m(ball);
  BallState start{.position = {table().width_m - reach, 0.75, ball.radius_m},
                  .velocity = {-0.12, 2.3, 0}};
  start.spin.y = 40;  // pulls to the right
  const Going g = going(start, ball);

  const NoseContact contact = next_nose(g.path, nose(), table(), ball, reach);

  ASSERT_NE(contact.t_s, never);
  EXPECT_NEAR(contact.nose.x, table().width_m, 1e-9);
  EXPECT_GT(contact.nose.y, 1.0);
}

// A ball that begins beside the extension of a jaw's wall, on its far side, crosses it and curves
// back into the wall.
TEST(ACurvedPath, MeetsAWallFromTheSideOnWhichItDidNotBegin) {
  const Ball& ball = table().cue_ball;
  const double reach = reach_m(ball);
  const BallState start{.position = {0.3067, 1.604, ball.radius_m},
                        .velocity = {-0.787, 0.0547, 0},
                        .spin = {-141.6, 26.0, 0}};
  const Going g = going(start, ball);
  ASSERT_FALSE(g.path.straight);

  const NoseContact contact = next_nose(g.path, nose(), table(), ball, reach);
  const PocketEntry entry = next_pocket(g.path, table(), ball);

  ASSERT_NE(entry.t_s, never);
  const double until = std::min(contact.t_s, entry.t_s);
  for (int i = 0; i < 1000; ++i) {
    const Vec2 p = plan(at(g.path, until * i / 1000));
    ASSERT_GT(norm(nearest_on(nose(), p) - p) - reach, -1e-6);
  }
  EXPECT_LT(contact.t_s, entry.t_s);
}

TEST(ABallThatIsPressedGently, MaySinkALittleBeforeItCounts) {
  const Ball ball;
  const double touch_m = 2 * ball.radius_m;
  // Creeping, and driven on by top spin.
  const BallState pressing{
      .position = {0, 0, ball.radius_m}, .velocity = {5e-5, 0, 0}, .spin = {0, 10, 0}};
  const BallState resting{.position = {touch_m, 0, ball.radius_m}};
  const Path first = going(pressing, ball).path;
  const double t = next_meeting(first, going(resting, ball).path, touch_m);
  ASSERT_NE(t, never);
  EXPECT_NEAR(at(first, t).x, sink_m, 1e-12);
}

}  // namespace
}  // namespace ahead::engine
