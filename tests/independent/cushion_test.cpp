#include <algorithm>
#include <cstdint>
#include <cstdio>

#include <gtest/gtest.h>

#include "tests/independent/contacts.h"
#include "tests/support/random_impact.h"

// The engine's cushion against the same equations (docs/physics.md, E1) in the hands of a
// general-purpose solver.
namespace ahead::independent {
namespace {

using engine::BallState;
using engine::Support;
using test::Dice;
using test::difference;
using test::Impact;

BallState solved(const Impact& i, const Solution& how = {}) {
  return rebounded(i.before, i.ball, i.to_nose, i.support == Support::bed, i.cushion, i.cloth, how);
}

/// What the model asks for, as a share of the incoming speed.
constexpr double asked = 1e-4;

/// Random impacts, without those that are far slower along the nose's normal than across it, where
/// a share of the incoming speed would measure nothing.
Impact measurable_impact(Dice& dice, Support support) {
  for (;;) {
    const Impact i = test::random_impact(dice, support);
    if (closing_mps(i) > 0.05 * norm(i.before.velocity)) return i;
  }
}

struct Trial {
  Support support;
  std::uint64_t seed;
  int impacts;
  Solution how;
};

class TheCushion : public ::testing::TestWithParam<Trial> {};

TEST_P(TheCushion, AgreesWithASolverOfDifferentialEquations) {
  Dice dice(GetParam().seed);
  double worst = 0;
  for (int k = 0; k < GetParam().impacts; ++k) {
    const Impact i = measurable_impact(dice, GetParam().support);
    const double d = difference(after(i), solved(i, GetParam().how), i);
    EXPECT_LT(d, asked) << "impact " << k;
    worst = std::max(worst, d);
  }
  std::printf("largest difference in %d impacts: %.2g of the incoming speed\n", GetParam().impacts,
              worst);
}

// In the air only one contact rubs, and a wider soft slip does.
INSTANTIATE_TEST_SUITE_P(Is, TheCushion,
                         ::testing::Values(Trial{Support::bed, 1, 200, {}},
                                           Trial{Support::air, 2, 200, {.soft_slip = 2e-5}}),
                         [](const auto& row) {
                           return row.param.support == Support::bed ? "OnTheBed" : "InTheAir";
                         });

// The nose stops slipping, holds for a while, and breaks loose again during the same impact.
TEST(ACushionThatHolds, OnlyForAWhileAgreesWithASolverToo) {
  struct Approach {
    double from_square_rad, k, side;
  };
  for (const Approach a : {Approach{0.496, -0.512, -0.355}, Approach{-0.519, -0.410, 0.388},
                           Approach{0.495, -0.492, -0.534}}) {
    Impact i{.ball = {.radius_m = 0.0238, .mass_kg = 0.094}};
    const double R = i.ball.radius_m;
    i.to_nose = test::nose_direction(0, (0.03226 - R) / R);
    const engine::Vec2 way = engine::direction(a.from_square_rad);
    i.before = {.position = {0, 0, R},
                .velocity = lift(way),
                .spin = lift((a.k / R) * left_of(way), a.side / R)};
    EXPECT_LT(difference(after(i), solved(i), i), asked) << a.from_square_rad;
  }
}

// A third of the soft slip, or a hundredth of the tolerance, gives nearly the same answer: the
// solver has converged ten times more closely than is asked of the engine.
TEST(TheSolverOfTheCushion, HasConverged) {
  Dice dice(3);
  double worst = 0;
  for (int k = 0; k < 12; ++k) {
    const Impact i = measurable_impact(dice, Support::bed);
    const BallState usual = solved(i);
    worst = std::max({worst, difference(usual, solved(i, {.soft_slip = 3e-7}), i),
                      difference(usual, solved(i, {.tolerance = 1e-11}), i)});
  }
  EXPECT_LT(worst, 0.1 * asked);
  std::printf("largest change with a closer solution: %.2g of the incoming speed\n", worst);
}

// The comparison can tell: with its friction spread over a hundredth of the speed it fails.
TEST(TheSolverOfTheCushion, IsFarOffWhenFrictionIsMadeSoft) {
  Dice dice(4);
  double worst = 0;
  for (int k = 0; k < 50; ++k) {
    const Impact i = measurable_impact(dice, Support::bed);
    worst = std::max(worst, difference(after(i), solved(i, {.soft_slip = 1e-2}), i));
  }
  EXPECT_GT(worst, 10 * asked);
}

}  // namespace
}  // namespace ahead::independent
