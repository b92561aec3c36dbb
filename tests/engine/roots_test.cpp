#include "engine/geometry/roots.h"

#include <algorithm>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "tests/support/any.h"

namespace ahead::engine {
namespace {

using test::any::between;

/// scale (t - r1) (t - r2) ...
Polynomial with_roots(const std::vector<double>& roots, double scale) {
  Polynomial p{scale, 0, 0, 0, 0};
  for (const double root : roots) {
    for (std::size_t i = 4; i > 0; --i) p[i] = p[i - 1] - root * p[i];
    p[0] *= -root;
  }
  return p;
}

double first(const Polynomial& gap, double t_max) { return first_closing(gap, t_max).value_or(-1); }

TEST(FirstClosing, FindsTheMomentAtWhichALineFallsThroughZero) {
  EXPECT_NEAR(first({1, -2, 0, 0, 0}, 10), 0.5, 1e-15);
  EXPECT_FALSE(first_closing({1, -2, 0, 0, 0}, 0.4));
  EXPECT_FALSE(first_closing({1, 2, 0, 0, 0}, 10));
}

TEST(FirstClosing, TakesTheFallAndNotTheRise) {
  // Positive before 1, between 2 and 3, and after 4.
  EXPECT_NEAR(first(with_roots({1, 2, 3, 4}, 1), 10), 1, 1e-12);
  // Closed at first; opens at 1, falls at 2.
  EXPECT_NEAR(first(with_roots({1, 2, 3, 4}, -1), 10), 2, 1e-12);
}

TEST(FirstClosing, IsZeroWhenTheGapIsClosedAndStillClosing) {
  EXPECT_EQ(first({0, -1, 5, 0, 0}, 10), 0);
  EXPECT_EQ(first({-1e-9, -1, 0, 0, 0}, 10), 0);
}

TEST(FirstClosing, LetsAClosedGapOpenWithoutAContact) {
  EXPECT_FALSE(first_closing({0, 1, 0, 0, 0}, 10));
  EXPECT_FALSE(first_closing({-1e-9, 1, 0, 0, 0}, 10));
}

TEST(FirstClosing, FindsAGrazingContact) {
  // (t - 1)^2 touches zero and rises again.
  EXPECT_NEAR(first(with_roots({1, 1}, 1), 10), 1, 1e-8);
  EXPECT_NEAR(first(with_roots({1, 1, 3, 4}, 1), 10), 1, 1e-7);
  EXPECT_NEAR(first(with_roots({1, 1, 3, 3}, 1), 10), 1, 1e-7);
}

TEST(FirstClosing, PassesOverAGrazeThatMissesByAHair) {
  Polynomial p = with_roots({1, 1}, 1);
  p[0] += 1e-12;
  EXPECT_FALSE(first_closing(p, 10));
}

TEST(FirstClosing, SeparatesTwoCloseRoots) {
  EXPECT_NEAR(first(with_roots({1, 1 + 1e-5}, 1), 10), 1, 1e-10);
  EXPECT_NEAR(first(with_roots({1, 1 + 1e-4, 5, 5 + 1e-4}, 1), 10), 1, 1e-9);
}

TEST(FirstClosing, DoesNotMindVanishingLeadingCoefficients) {
  const Polynomial cubic = with_roots({0.5, 2, 3}, -1);
  ASSERT_EQ(cubic[4], 0);
  EXPECT_NEAR(first(cubic, 10), 0.5, 1e-12);
  // A quartic whose leading coefficients are round-off: still the line's root.
  EXPECT_NEAR(first({1, -1, 1e-18, -1e-19, 1e-20}, 10), 1, 1e-12);
}

TEST(FirstClosing, FindsNothingInAConstant) {
  EXPECT_FALSE(first_closing({1, 0, 0, 0, 0}, 10));
  EXPECT_FALSE(first_closing({0, 0, 0, 0, 0}, 10));
}

RC_GTEST_PROP(FirstClosing, IsTheFirstRootAtWhichAProductOfChosenRootsFalls, ()) {
  const auto count = *rc::gen::inRange<std::size_t>(1, 5);
  std::vector<double> roots;
  for (std::size_t i = 0; i < count; ++i) roots.push_back(between(0.01, 5));
  std::ranges::sort(roots);
  for (std::size_t i = 1; i < count; ++i) RC_PRE(roots[i] - roots[i - 1] > 0.01);
  const Polynomial gap =
      with_roots(roots, between(0.1, 3) * (*rc::gen::arbitrary<bool>() ? 1 : -1));

  // Signs alternate: the gap falls at the first root if it starts open, else at the second.
  const std::size_t falls_at = gap[0] > 0 ? 0 : 1;
  const auto found = first_closing(gap, 6);

  if (falls_at >= count) {
    RC_ASSERT(!found);
  } else {
    RC_ASSERT(found.has_value());
    RC_ASSERT(std::abs(*found - roots[falls_at]) < 1e-8);
  }
}

RC_GTEST_PROP(FirstClosing, LeavesTheGapOpenUntilThen, ()) {
  const Polynomial gap{between(0.01, 1), between(-3, 3), between(-3, 3), between(-3, 3),
                       between(-3, 3)};
  const double t_max = between(0.1, 3);
  const auto found = first_closing(gap, t_max);
  const double until = found.value_or(t_max);
  for (int i = 0; i < 200; ++i) RC_ASSERT(value_at(gap, until * i / 200) > -1e-12);
  if (found) RC_ASSERT(std::abs(value_at(gap, *found)) < 1e-12);
}

}  // namespace
}  // namespace ahead::engine
