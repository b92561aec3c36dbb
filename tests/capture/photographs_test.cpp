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

/// Of a refused photograph only that it was.
Tally whole(Given given) {
  Tally tally;
  for (const Truth& truth : read_truth(folder)) {
    Tally one = judged(truth, folder, given);
    if (one.refused > 0) one.visible = 0;
    tally += one;
  }
  return tally;
}

double share(int part, int all) { return static_cast<double>(part) / all; }

TEST(ThePhotographs, AreEnough) { EXPECT_GE(read_truth(folder).size(), 24U); }

TEST(AMarkedPhotograph, ShowsItsBallsAndHowWellItKnowsThem) {
  const Tally tally = whole(Given::corners);
  EXPECT_EQ(tally.refused, 0);
  EXPECT_GE(share(tally.found, tally.visible), 0.97) << line_of("all", tally);
  EXPECT_LE(share(tally.false_balls, tally.found), 1.0 / 50) << line_of("all", tally);
  EXPECT_GE(share(tally.right_colour, tally.found), 0.99) << line_of("all", tally);
  EXPECT_LT(quantile(tally.errors_mm, 0.5), 3);
  EXPECT_LT(quantile(tally.errors_mm, 0.95), 8);
  const double within = share_within_one(tally.along_axes);
  EXPECT_GE(within, 0.60);
  EXPECT_LE(within, 0.76);
}

// And those that are not found are refused rather than misread.
TEST(AnUnmarkedPhotograph, ShowsItsTableAndItsBalls) {
  const Tally tally = whole(Given::nothing);
  EXPECT_GE(share(tally.tables, tally.photographs), 0.90) << line_of("all", tally);
  EXPECT_EQ(tally.tables + tally.refused, tally.photographs) << line_of("all", tally);
  EXPECT_GE(share(tally.found, tally.visible), 0.97) << line_of("all", tally);
  EXPECT_LE(share(tally.false_balls, tally.found), 1.0 / 50) << line_of("all", tally);
  EXPECT_GE(share(tally.right_colour, tally.found), 0.99);
  EXPECT_LT(quantile(tally.errors_mm, 0.5), 3);
  EXPECT_LT(quantile(tally.errors_mm, 0.95), 8);
  const double within = share_within_one(tally.along_axes);
  EXPECT_GE(within, 0.60);
  EXPECT_LE(within, 0.76);
}

}  // namespace
}  // namespace ahead::photographs
