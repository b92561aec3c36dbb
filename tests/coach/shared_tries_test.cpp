#include "coach/risk/shared_tries.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "coach/player/player.h"
#include "coach/pots/prospect.h"
#include "tests/coach/scene_of_balls.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

constexpr int ball = 1;
constexpr Vec2 wanted{0.5, 1.2};

/// A pot and strikes for it; what counts is a cue ball that stops near `wanted`.
struct Shots {
  Scene scene;
  Position position;
  Way way;

  [[nodiscard]] Call call(double height, double cue_speed_mps) const {
    const Touch touch{.height = height, .cue_speed_mps = cue_speed_mps};
    return call_of(*prospect_of(scene, position, way, touch));
  }
  [[nodiscard]] SharedTries tries(std::uint64_t seed) const {
    return {scene, position, value_of, seed};
  }
  static double value_of(const Try& one) {
    return engine::norm(one.leaves.at[0] - wanted) < 0.2 ? 1 : 0;
  }
  [[nodiscard]] double share(const Call& call, int count, std::uint64_t seed) const {
    double sum = 0;
    for (const Try& one : tries_of(scene, position, call, count, seed)) {
      if (succeeded(one)) sum += value_of(one);
    }
    return sum / count;
  }
};

Shots shots() {
  const Layout layout =
      test::layout_of({{"cue", {550, 950}}, {"red-1", {300, 1520}}, {"red-2", {710, 1310}}});
  Scene scene = scene_of(layout, ToPlay::red, *player_preset("club"));
  const Position position = position_of(layout);
  const auto ways = ways_of(scene, position, ball);
  const auto way =
      std::ranges::find(ways, static_cast<int>(engine::PocketName::top_left), &Way::pocket);
  return {std::move(scene), position, *way};
}

TEST(SharedTries, OfOneStrikeAreItsShare) {
  const Shots pot = shots();
  const Call call = pot.call(0.1, 1.3);
  SharedTries tries = pot.tries(5);
  tries.play(call, 300);
  const auto estimate = tries.estimate(call);
  const double share = pot.share(call, 300, 5);
  ASSERT_GT(share, 0.05);
  EXPECT_NEAR(estimate.mean, share, 1e-9);
  EXPECT_NEAR(estimate.effective, 300 * share, 1e-6);
}

// Brute force judges: 20,000 tries of the strike itself.
TEST(SharedTries, TellOfAStrikeThatWasNotPlayed) {
  const Shots pot = shots();
  SharedTries tries = pot.tries(5);
  tries.play(pot.call(0.0, 1.25), 4000);
  tries.play(pot.call(0.1, 1.35), 4000);
  const Call between = pot.call(0.07, 1.28);
  const auto estimate = tries.estimate(between);
  EXPECT_NEAR(estimate.mean, pot.share(between, 20'000, 9), 0.02);
  EXPECT_GT(estimate.effective, 500);
}

TEST(SharedTries, SayWhenTheyTellNothing) {
  const Shots pot = shots();
  SharedTries tries = pot.tries(5);
  EXPECT_EQ(tries.estimate(pot.call(0.1, 1.3)).effective, 0);
  tries.play(pot.call(0.1, 1.3), 2000);
  const double near = tries.estimate(pot.call(0.1, 1.33)).effective;
  const double far = tries.estimate(pot.call(0.1, 2.8)).effective;
  EXPECT_GT(near, 100);
  EXPECT_LT(far, 0.05 * near);
}

}  // namespace
}  // namespace ahead::coach
