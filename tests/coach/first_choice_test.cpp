#include "coach/doubt/first_choice.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "coach/plan/plan_clearance.h"
#include "lesson/words/after_words.h"
#include "tests/coach/scene_of_balls.h"

// Does the first choice hang on where the balls were measured to be?
namespace ahead::coach {
namespace {

using ::testing::HasSubstr;

Plan plan_of(const Layout& layout) {
  return *plan_clearance(layout, *player_preset("county"), {.threads = 2});
}

// One red over a pocket and the black behind it: nothing else to play, wherever they are exactly.
TEST(TheFirstChoice, StandsWhenThereIsNoOther) {
  const Plan plan = plan_of(
      test::layout_of({{"cue", {457, 600}}, {"red-1", {100, 100}}, {"black", {457, 1371}}}));

  const Steadiness steadiness = steadiness_of(plan, 0.003, 1, 2);

  EXPECT_EQ(steadiness.kept + steadiness.close, steadiness.redraws);
  EXPECT_FALSE(is_shaky(steadiness));
  EXPECT_EQ(lesson::doubt_words(plan, steadiness), "");
  EXPECT_EQ(steadiness_of(plan, 0.003, 1, 1).kept, steadiness.kept);
}

/// Red 1 goes to the near corner past a yellow with a millimetre or two to spare; with the way
/// closed, red 2 to the far corner is the better ball.
Layout squeezed() {
  return test::layout_of({{"cue", {300, 560}},
                          {"red-1", {200, 400}},
                          {"yellow-1", {165, 223}},
                          {"red-2", {800, 1100}},
                          {"black", {457, 1371}}});
}

TEST(TheFirstChoice, IsShakyWhenItSqueezesPastABall) {
  const Plan plan = plan_of(squeezed());

  const Steadiness steadiness = steadiness_of(plan, 0.003, 1, 2);

  EXPECT_TRUE(is_shaky(steadiness));
  EXPECT_THAT(lesson::doubt_words(plan, steadiness), HasSubstr("moved by about 3 mm"));
  EXPECT_THAT(lesson::doubt_words(plan, steadiness), HasSubstr("It hangs on red 1."));
  // Measured ten times better, it stands.
  EXPECT_FALSE(is_shaky(steadiness_of(plan, 0.0003, 1, 2)));
}

}  // namespace
}  // namespace ahead::coach
