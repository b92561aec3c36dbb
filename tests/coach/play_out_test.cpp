#include "coach/plan/play_out.h"

#include <cmath>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "coach/plan/choose.h"
#include "coach/plan/quick_choice.h"
#include "tests/coach/example_layout.h"

// Clearances that are played out by halves and quarters, against the same ones played whole.
namespace ahead::coach {
namespace {

struct Start {
  Scene scene;
  Position position;
  ValueField field;
  Call call;
};

Start start_of(const std::string& name) {
  const Layout layout = test::example_layout(name);
  const Player player = *player_preset("club");
  Scene scene = scene_of(layout, layout.to_play, player);
  const Position position = position_of(layout);
  ValueField field(scene, position, coarse_grid,
                   std::make_shared<const Glance>(scene.field, player));
  long simulated = 0;
  const auto rivals =
      weigh_shots(scene, field, position, 1, simulated, budget_of(Effort::quick).care);
  const Call call = call_of(rivals.front().prospect);
  return {std::move(scene), position, std::move(field), call};
}

std::vector<Run> runs_from(const Start& start, int runs, std::uint64_t seed) {
  long simulated = 0;
  return runs_of(start.scene, start.field, start.position, start.call, runs, seed, simulated);
}

/// One try a shot, to the end or the first that fails.
bool clears(const Start& start, std::uint64_t seed, std::uint64_t run) {
  Position position = start.position;
  Call call = start.call;
  FreshWays fresh;
  constexpr std::uint64_t most_shots = 32;
  for (std::uint64_t shot = 0; shot < most_shots; ++shot) {
    const Try one = try_once(start.scene, position, call, seed, run * most_shots + shot);
    if (!succeeded(one)) return false;
    if (one.verdict == Verdict::cleared) return true;
    position = one.leaves;
    long simulated = 0;
    const auto next = quick_choice(start.scene, start.field, position, fresh, seed, simulated);
    if (!next) return false;
    call = *next;
  }
  return false;
}

TEST(ARun, EitherClearsOrBreaksDownSomewhere) {
  for (const auto& run : runs_from(start_of("evening-class"), 20, 1)) {
    double whole = run.cleared;
    for (const Breakdown& here : run.breakdowns) {
      EXPECT_GT(here.share, 0);
      whole += here.share;
    }
    EXPECT_NEAR(whole, 1, 1e-12);
    EXPECT_LE(run.cleared, run.began);
  }
}

TEST(Runs, ClearAsOftenAsClearancesOfOneTryAShot) {
  const Start start = start_of("two-to-go");
  constexpr int count = 800;
  int whole = 0;
  for (std::uint64_t i = 0; i < count; ++i) whole += clears(start, 5, i) ? 1 : 0;
  const double expected = static_cast<double>(whole) / count;

  double sum = 0;
  double square = 0;
  const auto runs = runs_from(start, count, 6);
  for (const auto& run : runs) {
    sum += run.cleared;
    square += run.cleared * run.cleared;
  }
  const double mean = sum / count;
  const double of_runs = square / count - mean * mean;
  const double of_whole = expected * (1 - expected);
  EXPECT_NEAR(mean, expected, 4 * std::sqrt((of_runs + of_whole) / count));
  // What splitting is for.
  EXPECT_LT(of_runs, 0.6 * of_whole);
}

}  // namespace
}  // namespace ahead::coach
