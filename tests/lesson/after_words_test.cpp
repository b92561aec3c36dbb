#include "lesson/words/after_words.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/lesson/played_plan.h"

namespace ahead::lesson {
namespace {

using coach::Part;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

/// The first shot of the plan, with an inferred slip that is as given.
coach::Aftermath aftermath() {
  coach::Aftermath after{
      .actual = played::plan().shots[0].before, .player = played::plan().player, .potted = true};
  after.strike.explained = 1;
  after.strike.effective_samples = 2000;
  for (coach::Estimate& part : after.strike.parts) part.prior_sigma = 1;
  after.strike.parts[1] = {.low = 0.031, .best = 0.09, .high = 0.151, .prior_sigma = 0.08};
  after.strike.parts[2] = {.low = -0.001, .best = 0, .high = 0.002, .prior_sigma = 0.0025};
  after.strike.untold = {Part::direction, Part::tip_side, Part::elevation};
  return after;
}

TEST(TheWordsAfterAShot, GiveEachSlipWithItsInterval) {
  EXPECT_THAT(
      after_words(played::plan(), aftermath()).strike,
      ElementsAre("Pace: 9% too hard (90% interval: 3 to 15% too hard).",
                  "Height of the tip: as meant (90% interval: 1.0 mm too low to 2.0 mm too high).",
                  "The balls say next to nothing about the direction, side of the tip and "
                  "elevation of the butt."));
}

TEST(TheWordsAfterAShot, SayWhatCannotBeToldApart) {
  coach::Aftermath after = aftermath();
  after.strike.tradeoffs = {
      {.one = Part::pace, .other = Part::tip_height, .one_alone = 0.09, .other_alone = 0.0041}};
  EXPECT_THAT(after_words(played::plan(), after).strike,
              Contains("The balls cannot tell pace and height of the tip apart: either 9% too hard "
                       "with the height of the tip as meant, or 4.1 mm too high with the pace as "
                       "meant, or something of both."));
}

TEST(TheWordsAfterAShot, AdmitThatNothingExplainsIt) {
  coach::Aftermath after = aftermath();
  after.strike.explained = 0.1;
  after.strike.strays = {1};
  EXPECT_THAT(after_words(played::plan(), after).strike,
              ElementsAre(HasSubstr("No strike of this player at that shot explains")));
  EXPECT_THAT(after_words(played::plan(), after).strike,
              Contains(HasSubstr("What does not fit: red 1.")));
}

TEST(TheWordsAfterAShot, OwnUpToRoughFigures) {
  coach::Aftermath after = aftermath();
  after.strike.effective_samples = 60;
  EXPECT_THAT(after_words(played::plan(), after).strike, Contains(HasSubstr("60 effective")));
}

TEST(TheWordsAfterAShot, EndTheVisitWithAMiss) {
  coach::Aftermath after = aftermath();
  after.potted = false;
  EXPECT_THAT(after_words(played::plan(), after).from_here, HasSubstr("so the visit is over"));
}

TEST(TheDoubt, IsSaidOnlyWhenTheChoiceIsShaky) {
  EXPECT_EQ(doubt_words(played::plan(), {.redraws = 6, .kept = 4, .close = 1, .sigma_m = 0.003}),
            "");
  EXPECT_EQ(doubt_words(played::plan(),
                        {.redraws = 6, .kept = 3, .close = 1, .sigma_m = 0.003, .hangs_on = 2}),
            "Measure again before you trust the first choice: with the balls moved by about 3 mm, "
            "another was clearly better 2 times in 6. It hangs on red 2.");
}

}  // namespace
}  // namespace ahead::lesson
