#include "engine/motion/nap.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "engine/equipment/presets.h"
#include "engine/motion/motion.h"
#include "engine/simulate/simulate.h"
#include "tests/independent/play.h"
#include "tests/support/any.h"
#include "tests/support/random_shots.h"
#include "tests/support/shot_facts.h"

// The nap of docs/physics.md, B5. No coefficient is published, so what is checked is the model: its
// closed forms, its laws, and its strides against a general-purpose solver.
namespace ahead::engine {
namespace {

using test::any::between;

constexpr Ball ball{.radius_m = 0.0254, .mass_kg = 0.116};
const Cloth napped{.rolling = 0.014, .nap = 0.003};

BallState rolling(Vec2 velocity) {
  return {.position = {0, 0, ball.radius_m},
          .velocity = lift(velocity),
          .spin = lift(left_of(velocity) / ball.radius_m)};
}

struct Roll {
  BallState end;
  double took_s = 0;
  int strides = 0;
};

Roll roll_out(Vec2 velocity, const Cloth& cloth) {
  Roll roll{.end = rolling(velocity)};
  while (phase_of(roll.end, ball) == Phase::rolling) {
    const double lasts_s = phase_duration_s(Phase::rolling, roll.end, ball, cloth);
    roll.end = at_phase_end(Phase::rolling, roll.end, ball, cloth, lasts_s);
    roll.took_s += lasts_s;
    ++roll.strides;
  }
  return roll;
}

TEST(ABallOnNap, RunsFurtherWithItAndLessFarAgainstIt) {
  const double v = 1.2;
  const double a = napped.rolling * gravity_mps2;
  const double b = napped.nap * gravity_mps2;
  const Roll with = roll_out({0, v}, napped);
  const Roll against = roll_out({0, -v}, napped);
  EXPECT_NEAR(with.end.position.y, v * v / (2 * (a - b)), 1e-12);
  EXPECT_NEAR(against.end.position.y, -v * v / (2 * (a + b)), 1e-12);
  EXPECT_EQ(with.end.position.x, 0);
  EXPECT_EQ(with.strides, 1);
  EXPECT_EQ(against.strides, 1);
}

TEST(ABallOnNap, DriftsUpTheTableAndMoreTheSlowerItRuns) {
  // Over the same metre across the table.
  const auto drift_m = [](double v) {
    BallState state = rolling({v, 0});
    for (;;) {
      const double lasts_s = phase_duration_s(Phase::rolling, state, ball, napped);
      const BallState end = at_phase_end(Phase::rolling, state, ball, napped, lasts_s);
      if (end.position.x > 1) {
        const double share = (1 - state.position.x) / (end.position.x - state.position.x);
        return state.position.y + share * (end.position.y - state.position.y);
      }
      state = end;
    }
  };
  EXPECT_GT(drift_m(2.0), 0);
  EXPECT_GT(drift_m(1.0), 3 * drift_m(2.0));
  EXPECT_GT(drift_m(0.6), drift_m(1.0));
}

// The time of the stop in closed form: (a |v| + b v_y) / (a^2 - b^2), the classic result for a body
// on a rough slope.
RC_GTEST_PROP(ABallOnNap, StopsWhenTheTheoryOfTheRoughSlopeSays, ()) {
  Cloth cloth = test::any::cloth();
  cloth.nap = between(0, 0.5) * cloth.rolling;
  const Vec2 v = between(0.05, 3) * direction(test::any::angle_rad());
  const double a = cloth.rolling * gravity_mps2;
  const double b = cloth.nap * gravity_mps2;
  RC_ASSERT(std::abs(roll_out(v, cloth).took_s - (a * norm(v) + b * v.y) / (a * a - b * b)) < 1e-9);
}

RC_GTEST_PROP(ABallOnNap, LosesEnergyAtEveryMoment, ()) {
  Cloth cloth = test::any::cloth();
  cloth.nap = between(0, 0.5) * cloth.rolling;
  BallState state = rolling(between(0.01, 3) * direction(test::any::angle_rad()));
  while (phase_of(state, ball) == Phase::rolling) {
    const double lasts_s = phase_duration_s(Phase::rolling, state, ball, cloth);
    double before_j = energy_j(state, ball);
    for (const double share : {0.1, 0.5, 0.9, 1.0}) {
      const double now_j =
          energy_j(advance(Phase::rolling, state, ball, cloth, share * lasts_s), ball);
      RC_ASSERT(now_j < before_j);
      before_j = now_j;
    }
    state = at_phase_end(Phase::rolling, state, ball, cloth, lasts_s);
  }
}

RC_GTEST_PROP(ABallOnNap, RollsOnFromStrideToStrideWithHardlyAJolt, ()) {
  Cloth cloth = test::any::cloth();
  cloth.nap = between(0.01, 0.5) * cloth.rolling;
  const BallState start = rolling(between(0.01, 3) * direction(test::any::angle_rad()));
  const double lasts_s = phase_duration_s(Phase::rolling, start, ball, cloth);
  const BallState end = at_phase_end(Phase::rolling, start, ball, cloth, lasts_s);
  const BallState just_before = advance(Phase::rolling, start, ball, cloth, lasts_s);
  RC_ASSERT(norm(end.position - just_before.position) == 0);
  RC_ASSERT(norm(end.velocity - just_before.velocity) < 1e-4);
  RC_ASSERT(norm(end.velocity) <= norm(just_before.velocity) * (1 + 1e-14) + 1e-12);
  RC_ASSERT(norm(slip(end, ball)) < 1e-14);
}

/// Cloth with its only cushion far away.
Table open_cloth(const Cloth& cloth) {
  Table table{.id = "open", .nose_height_m = 0.03226};
  table.rails = {RailSegment{.from = {100, 100}, .to = {101, 100}}};
  table.cloth = cloth;
  table.cue_ball = ball;
  table.object_ball = ball;
  return table;
}

// Anywhere between no nap and the most, to the end of a roll of up to the length of a table.
TEST(ABallOnNap, StaysWithinAHundredthOfAMillimetreOfASolver) {
  test::Dice dice(601);
  double worst_m = 0;
  double worst_s = 0;
  int most_strides = 0;
  for (int i = 0; i < 300; ++i) {
    Cloth cloth{.rolling = dice.between(0.008, 0.016)};
    cloth.nap = dice.between(0.001, 0.5) * cloth.rolling;
    const double way_m = dice.between(0.05, 1.8);
    const double v = std::sqrt(2 * cloth.rolling * gravity_mps2 * way_m);
    const Vec2 velocity = v * direction(dice.between(-std::numbers::pi, std::numbers::pi));
    const Roll ours = roll_out(velocity, cloth);
    const std::vector<BallState> start{rolling(velocity)};
    const independent::Played solved = independent::play(open_cloth(cloth), start);
    ASSERT_EQ(solved.events.size(), 1U);
    worst_m = std::max(worst_m, norm(solved.ends[0].position - ours.end.position));
    worst_s = std::max(worst_s, std::abs(solved.events[0].t_s - ours.took_s));
    most_strides = std::max(most_strides, ours.strides);
  }
  EXPECT_LT(worst_m, 1e-5);
  EXPECT_LT(worst_s, 1e-9);
  EXPECT_LT(most_strides, 250);
  std::printf("largest differences %.2g m and %.2g s, at most %d strides a roll\n", worst_m,
              worst_s, most_strides);
}

Playfield napped_field() {
  Table table = *table_preset("english-7ft");
  table.cloth.nap = 0.003;
  return Playfield(table);
}

// Left and right do not differ on nap; the two ends do.
TEST(AShotOnNap, IsMirroredLeftAndRight) {
  const Playfield field = napped_field();
  const double width_m = field.table().width_m;
  test::Dice dice(602);
  int compared = 0;
  while (compared < 100) {
    const test::RandomShot random = test::random_shot(dice, field.table());
    test::RandomShot twin = random;
    for (Vec2& place : twin.balls) place.x = width_m - place.x;
    twin.strike.aim_rad = std::numbers::pi - random.strike.aim_rad;
    twin.strike.side = -random.strike.side;
    const Shot shot = simulate(field, random.balls, random.strike);
    if (test::count_of(shot, EventKind::ball_ball) + test::count_of(shot, EventKind::group) +
            test::count_of(shot, EventKind::cushion) >
        3) {
      continue;
    }
    ++compared;
    const Shot other = simulate(field, twin.balls, twin.strike);
    for (std::size_t i = 0; i < shot.endings.size(); ++i) {
      Vec3 end = other.endings[i].position;
      end.x = width_m - end.x;
      EXPECT_LT(norm(end - shot.endings[i].position), 1e-9)
          << test::in_code(random.balls, random.strike);
    }
  }
}

TEST(AShotOnNap, LetsNoBallSinkIntoAnother) {
  const Playfield field = napped_field();
  test::Dice dice(603);
  for (int i = 0; i < 200; ++i) {
    const test::RandomShot random = test::random_shot(dice, field.table());
    const Shot shot = simulate(field, random.balls, random.strike);
    const test::Overlaps deepest = test::deepest_overlaps(shot, field, random.balls);
    EXPECT_LT(deepest.balls_m, 1e-6) << test::in_code(random.balls, random.strike);
    EXPECT_LT(deepest.cushion_m, 1e-6) << test::in_code(random.balls, random.strike);
  }
}

}  // namespace
}  // namespace ahead::engine
