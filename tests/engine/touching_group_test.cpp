#include "engine/contact/touching_group.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "engine/contact/ball_ball.h"
#include "engine/motion/motion.h"
#include "tests/support/any.h"
#include "tests/support/dice.h"

// Published values (a line of three, a split of two, a full rack) are in tests/published/.
namespace ahead::engine {
namespace {

using test::Dice;
using test::any::between;

constexpr double pi = 3.14159265358979323846;

struct Group {
  std::vector<BallState> states;
  std::vector<Ball> balls;
};

Group resolved(Group group, const BallContact& contact = {}) {
  TouchingGroup{}.resolve(group.states, group.balls, contact);
  return group;
}

/// Largest difference of velocities and surface speeds, m/s.
double difference(const Group& a, const Group& b) {
  double largest = 0;
  for (std::size_t i = 0; i < a.states.size(); ++i) {
    largest = std::max({largest, norm(a.states[i].velocity - b.states[i].velocity),
                        a.balls[i].radius_m * norm(a.states[i].spin - b.states[i].spin)});
  }
  return largest;
}

constexpr Ball object_ball{.radius_m = 0.0254, .mass_kg = 0.116};

/// A cue ball that meets the first of a small cluster of frozen object balls: three to six balls,
/// each new one frozen to an earlier one.
Group random_cluster(Dice& dice) {
  Group group;
  const double R = object_ball.radius_m;
  const int count = dice.whole(2, 5);
  std::vector<Vec2> places{{0, 0}};
  while (static_cast<int>(places.size()) < count) {
    const auto friend_of =
        static_cast<std::size_t>(dice.whole(0, static_cast<int>(places.size()) - 1));
    const double gap_m = dice.whole(0, 1) == 0 ? 0 : dice.between(0, 0.0009);
    const Vec2 place =
        places[friend_of] + (2 * R + gap_m) * direction(dice.between(-pi / 2, pi / 2));
    if (std::ranges::all_of(places, [&](Vec2 p) { return norm(place - p) >= 2 * R - 1e-15; })) {
      places.push_back(place);
    }
  }
  // The cue ball comes from the left, where no object ball can be.
  const double from_rad = pi + dice.between(-0.2, 0.2);
  const Vec2 cue = 2 * R * direction(from_rad);
  const double v = dice.between(0.3, 5);
  BallState striker{.position = lift(cue, R),
                    .velocity = lift(v * direction(dice.between(-0.6, 0.6)))};
  striker.spin = {dice.between(-v, v) / R, dice.between(-v, v) / R, dice.between(-v, v) / R};
  group.states.push_back(striker);
  for (const Vec2 place : places) group.states.push_back({.position = lift(place, R)});
  group.balls.assign(group.states.size(), object_ball);
  return group;
}

Group any_cluster() {
  Dice dice(*rc::gen::arbitrary<std::uint64_t>());
  return random_cluster(dice);
}

double energy(const Group& group) {
  double sum = 0;
  for (std::size_t i = 0; i < group.states.size(); ++i) {
    sum += energy_j(group.states[i], group.balls[i]);
  }
  return sum;
}

Vec3 momentum(const Group& group) {
  Vec3 sum;
  for (std::size_t i = 0; i < group.states.size(); ++i) {
    sum += group.balls[i].mass_kg * group.states[i].velocity;
  }
  return sum;
}

// The damped Hertz contact has the pair's restitution at every speed. To 1e-5 of the speed: a
// fiftieth of a millimetre over two metres.
TEST(ALonePair, GivesTheAnswerOfThePairRule) {
  Dice dice(4);
  double worst_line = 0;
  double worst_all = 0;
  for (int k = 0; k < 300; ++k) {
    const Ball first_ball{.radius_m = dice.between(0.0235, 0.029),
                          .mass_kg = dice.between(0.09, 0.17)};
    const double v = dice.between(0.05, 6);
    const double cut = dice.between(-1.2, 1.2);
    const double turn = 1.2 * v / first_ball.radius_m;
    BallState first{.velocity = lift(v * direction(cut))};
    first.spin = {dice.between(-turn, turn), dice.between(-turn, turn), dice.between(-turn, turn)};
    const BallState second{.position = {first_ball.radius_m + object_ball.radius_m, 0, 0}};
    for (const double friction : {0.0, 1.0}) {
      const BallContact contact{.friction_a = friction * 0.00995, .friction_b = friction * 0.108};
      const auto [a, b] = collided(first, first_ball, second, object_ball, contact);
      const Group pair{{a, b}, {first_ball, object_ball}};
      const Group group = resolved({{first, second}, {first_ball, object_ball}}, contact);
      const double d = difference(group, pair) / v;
      (friction == 0 ? worst_line : worst_all) =
          std::max(friction == 0 ? worst_line : worst_all, d);
    }
  }
  std::printf("group against pair: %.2g without friction, %.2g with, of the speed\n", worst_line,
              worst_all);
  EXPECT_LT(worst_line, 1e-5);
  EXPECT_LT(worst_all, 1e-5);
}

RC_GTEST_PROP(ATouchingGroup, KeepsItsMomentum, ()) {
  const Group before = any_cluster();
  const Group after = resolved(before);
  RC_ASSERT(norm(momentum(after) - momentum(before)) < 1e-9 * norm(momentum(before)));
}

RC_GTEST_PROP(ATouchingGroup, NeverGainsEnergy, ()) {
  const Group before = any_cluster();
  RC_ASSERT(energy(resolved(before)) < energy(before));
}

RC_GTEST_PROP(ATouchingGroup, DoesNotCareForTheOrderOfListing, ()) {
  const Group before = any_cluster();
  Group reversed = before;
  std::ranges::reverse(reversed.states);
  std::ranges::reverse(reversed.balls);

  const Group one = resolved(before);
  Group other = resolved(reversed);
  std::ranges::reverse(other.states);

  RC_ASSERT(difference(one, other) < 1e-9 * norm(before.states[0].velocity));
}

RC_GTEST_PROP(ATouchingGroup, MovesNoBall, ()) {
  const Group before = any_cluster();
  const Group after = resolved(before);
  for (std::size_t i = 0; i < before.states.size(); ++i) {
    RC_ASSERT(after.states[i].position == before.states[i].position);
  }
}

RC_GTEST_PROP(ATouchingGroup, InAMirrorGivesTheMirroredResult, ()) {
  const Group one = any_cluster();
  const auto mirrored = [](Group group) {
    for (BallState& s : group.states) {
      s = {.position = {s.position.x, -s.position.y, s.position.z},
           .velocity = {s.velocity.x, -s.velocity.y, s.velocity.z},
           .spin = {-s.spin.x, s.spin.y, -s.spin.z}};
    }
    return group;
  };
  RC_ASSERT(difference(mirrored(resolved(one)), resolved(mirrored(one))) <
            1e-9 * norm(one.states[0].velocity));
}

/// Cue ball square onto two frozen balls.
Group split() {
  const double R = object_ball.radius_m;
  const Vec2 along = 2 * R * direction(pi / 6);
  return {{{.position = {0, 0, R}, .velocity = {1, 0, 0}},
           {.position = lift(along, R)},
           {.position = {along.x, -along.y, R}}},
          {object_ball, object_ball, object_ball}};
}

TEST(ATouchingGroup, SplitsTwoBallsAlike) {
  const Group after = resolved(split());
  EXPECT_NEAR(after.states[1].velocity.x, after.states[2].velocity.x, 1e-12);
  EXPECT_NEAR(after.states[1].velocity.y, -after.states[2].velocity.y, 1e-12);
  EXPECT_NEAR(after.states[0].velocity.y, 0, 1e-12);
}

/// Speeds of three balls in line, the last `gap_m` behind the second, once they have all met.
Group line_with_gap(double gap_m) {
  const double R = object_ball.radius_m;
  return {{{.position = {0, 0, R}, .velocity = {1, 0, 0}},
           {.position = {2 * R, 0, R}},
           {.position = {4 * R + gap_m, 0, R}}},
          {object_ball, object_ball, object_ball}};
}

// A gap opens: frozen, a thousandth of a hair apart, a hair apart.
TEST(ATouchingGroup, AnswersContinuouslyAsAGapOpens) {
  Group before = resolved(line_with_gap(0));
  for (const double gap_m : {1e-9, 1e-8, 1e-7, 1e-6}) {
    const Group after = resolved(line_with_gap(gap_m));
    EXPECT_LT(difference(before, after), 0.15) << gap_m;
    before = after;
  }
  EXPECT_LT(difference(resolved(line_with_gap(0)), resolved(line_with_gap(1e-9))), 1e-3);
}

TEST(ATouchingGroup, WithAWideGapPassesTheBlowOnInSequence) {
  const Group after = resolved(line_with_gap(0.0009));
  const BallContact contact;
  const double keeps = (1 - contact.restitution) / 2;
  EXPECT_NEAR(after.states[0].velocity.x, keeps, 1e-4);
  // The second ball carries the blow and meets the third later, as an event of its own.
  EXPECT_NEAR(after.states[1].velocity.x, 1 - keeps, 1e-4);
  EXPECT_EQ(after.states[2].velocity.x, 0);
}

// The step is chosen from the stiffness: half the modulus, the same velocities.
TEST(ATouchingGroup, SplitsTheSameWhateverTheStiffness) {
  const BallContact hard{.young_gpa = 5.84};
  const BallContact soft{.young_gpa = 1.0};
  EXPECT_LT(difference(resolved(split(), hard), resolved(split(), soft)), 1e-4);
}

}  // namespace
}  // namespace ahead::engine
