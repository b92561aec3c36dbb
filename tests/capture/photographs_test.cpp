#include <filesystem>
#include <string>

#include <gtest/gtest.h>

#include "tests/photographs/judge.h"

// What a photograph must give, on rendered ones whose truth is known (tests/photographs). They were
// drawn from a seed of their own: nothing in capture/ was tried or tuned on them.
namespace ahead::photographs {
namespace {

const std::filesystem::path folder =
    std::filesystem::path(AHEAD_SOURCE_DIR) / "tests/photographs/scenes";

const Tally& all(Given given) {
  const auto whole = [](Given how) {
    Tally tally;
    for (const Truth& truth : read_truth(folder)) tally += judged(truth, folder, how);
    return tally;
  };
  static const Tally marked = whole(Given::corners);
  static const Tally unmarked = whole(Given::nothing);
  return given == Given::corners ? marked : unmarked;
}

double share(int part, int whole) { return static_cast<double>(part) / whole; }

TEST(ThePhotographs, AreEnough) { EXPECT_GE(read_truth(folder).size(), 24U); }

TEST(AMarkedPhotograph, ShowsItsBalls) {
  const Tally& tally = all(Given::corners);
  EXPECT_GE(share(tally.found, tally.visible), 0.97) << line_of("all", tally);
  EXPECT_LE(share(tally.false_balls, tally.found), 1.0 / 50) << line_of("all", tally);
  EXPECT_GE(share(tally.right_colour, tally.found), 0.99) << line_of("all", tally);
}

TEST(AMarkedPhotograph, SaysWhereTheyLie) {
  const Tally& tally = all(Given::corners);
  EXPECT_LT(quantile(tally.errors_mm, 0.5), 3);
  EXPECT_LT(quantile(tally.errors_mm, 0.95), 8);
}

TEST(AMarkedPhotograph, KnowsHowWellItKnows) {
  const double within = share_within_one(all(Given::corners).along_axes);
  EXPECT_GE(within, 0.60);
  EXPECT_LE(within, 0.76);
}

TEST(AnUnmarkedPhotograph, ShowsItsTable) {
  const Tally& tally = all(Given::nothing);
  EXPECT_GE(share(tally.tables, tally.photographs), 0.90) << line_of("all", tally);
}

}  // namespace
}  // namespace ahead::photographs
