#include "coach/spread.h"

#include <cmath>
#include <cstddef>

#include <gtest/gtest.h>

#include "coach/random.h"

namespace ahead::coach {
namespace {

// Niederreiter, Random Number Generation and Quasi-Monte Carlo Methods (SIAM, 1992), ch. 3, from
// memory: in base 2 the sequence begins 0, 1/2, 1/4, 3/4, 1/8; in base 3 with 0, 1/3, 2/3, 1/9.
TEST(MirroredDigits, AreVanDerCorputsSequence) {
  EXPECT_EQ(mirrored(0, 2), 0);
  EXPECT_EQ(mirrored(1, 2), 1.0 / 2);
  EXPECT_EQ(mirrored(2, 2), 1.0 / 4);
  EXPECT_EQ(mirrored(3, 2), 3.0 / 4);
  EXPECT_EQ(mirrored(4, 2), 1.0 / 8);
  EXPECT_NEAR(mirrored(2, 3), 2.0 / 3, 1e-15);
  EXPECT_NEAR(mirrored(3, 3), 1.0 / 9, 1e-15);
}

// NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1: the normal distribution's table.
TEST(TheNormalQuantile, IsThatOfTheTable) {
  EXPECT_NEAR(normal_quantile(0.5), 0, 1e-12);
  EXPECT_NEAR(normal_quantile(0.97500), 1.96, 1e-4);
  EXPECT_NEAR(normal_quantile(0.84134), 1.0, 1e-4);
  EXPECT_NEAR(normal_quantile(1 - 0.99865), -3.0, 2e-3);
}

/// How far the share of points with a sum of the first two below 1 lies from its expectation: that
/// sum is normal with variance 2.
double off(int count, const auto& point) {
  int below = 0;
  for (int i = 0; i < count; ++i) {
    const Normals one = point(static_cast<std::uint64_t>(i));
    below += one[0] + one[1] < 1 ? 1 : 0;
  }
  return std::abs(static_cast<double>(below) / count - 0.5 * std::erfc(-0.5));
}

TEST(SpreadNormals, ComeNearerToAShareThanRandomOnes) {
  constexpr int count = 512;
  double spread = 0;
  double random = 0;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    spread += off(count, [&](std::uint64_t i) { return spread_normals(seed, i); });
    random += off(count, [&](std::uint64_t i) {
      Random stream(seed, i);
      Normals point{};
      for (double& one : point) one = stream.normal();
      return point;
    });
  }
  EXPECT_LT(spread, 0.4 * random);
}

TEST(SpreadNormals, AreTurnedByTheSeed) {
  Normals mean{};
  constexpr std::uint64_t seeds = 4000;
  for (std::uint64_t seed = 0; seed < seeds; ++seed) {
    const Normals point = spread_normals(seed, 7);
    for (std::size_t k = 0; k < point.size(); ++k) mean[k] += point[k] / seeds;
  }
  // One point over many seeds is as random: the standard error is 0.016.
  for (const double part : mean) EXPECT_NEAR(part, 0, 0.06);
}

}  // namespace
}  // namespace ahead::coach
