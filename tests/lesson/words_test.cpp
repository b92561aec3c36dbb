#include <numbers>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "lesson/words/bet_words.h"
#include "lesson/words/chance.h"
#include "lesson/words/names.h"
#include "lesson/words/pace.h"
#include "lesson/words/plan_words.h"
#include "lesson/words/shot_words.h"
#include "tests/lesson/played_plan.h"

namespace ahead::lesson {
namespace {

using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

TEST(AChance, IsSaidInTenthsWithTheFigureAtHand) {
  EXPECT_EQ(chance_words({.value = 0.71, .low = 0.68, .high = 0.74, .trials = 900}),
            "about 7 in 10 (71%, 95% interval 68 to 74)");
}

TEST(AChance, IsOneInSoManyWhenSmall) {
  EXPECT_EQ(odds_words(0.1), "about 1 in 10");
  EXPECT_EQ(odds_words(1 / 30.0), "about 1 in 30");
  EXPECT_EQ(odds_words(0.001), "fewer than 1 in 200");
}

TEST(AChance, IsNeverCalledCertainWhenItIsNot) {
  EXPECT_EQ(percent_words(0.999), "over 99%");
  EXPECT_EQ(percent_words(0.001), "under 1%");
  EXPECT_EQ(odds_words(0.999), "more than 199 in 200");
  EXPECT_EQ(odds_words(0.97), "about 19 in 20");
}

// The ranges are common practice.
TEST(WhereToStrike, IsSaidByHeightAndSide) {
  EXPECT_EQ(where_to_strike(
                {.height = -0.25, .side = -0.15, .cue_tips_up = -1.0, .cue_tips_right = -0.5}),
            "low, with a touch of side on the left: the cue points one tip below centre and half a "
            "tip to the left");
  EXPECT_EQ(where_to_strike({}), "at centre height");
}

TEST(WhereToStrike, LeavesOutATraceOfSide) {
  EXPECT_EQ(
      where_to_strike({.height = 0.2, .side = 0.05, .cue_tips_up = 0.75, .cue_tips_right = 0.2}),
      "above centre: the cue points three-quarters of a tip above centre");
}

TEST(Thickness, IsNamedByTheNearestQuarter) {
  const double cut_rad = 30 * std::numbers::pi / 180;
  EXPECT_EQ(thickness_words(0.5, cut_rad), "half ball");
  EXPECT_EQ(thickness_words(0.58, cut_rad), "a little thicker than half ball");
  EXPECT_EQ(thickness_words(0.99, 0.01), "straight");
  EXPECT_EQ(thickness_words(0.05, 1.3), "very fine");
}

TEST(Pace, IsSaidAsAPartOfTheTable) {
  EXPECT_EQ(table_lengths(1.8, 1.83), "about one table length");
  EXPECT_EQ(table_lengths(1.35, 1.83), "about three-quarters of a table length");
  EXPECT_EQ(table_lengths(2.75, 1.83), "about one and a half table lengths");
  EXPECT_EQ(table_lengths(0.12, 1.83), "about 120 mm");
}

TEST(Names, AreThoseOfTheTrade) {
  EXPECT_EQ(ball_name("red-3"), "red 3");
  EXPECT_EQ(ball_name("black"), "the black");
  EXPECT_EQ(listed({"a", "b", "c"}), "a, b and c");
}

ShotFacts stun_to_the_middle() {
  ShotFacts facts;
  facts.order = 1;
  facts.best = {.ball = "red 3",
                .pocket = "the middle-left",
                .thickness = "half ball",
                .strike = {.height = -0.2,
                           .side = 0.15,
                           .cue_tips_up = -0.75,
                           .cue_tips_right = 0.5,
                           .cue_ball_speed_mps = 1.6},
                .pot = {.value = 0.71, .low = 0.68, .high = 0.74, .trials = 900},
                .clear = {.value = 0.42, .low = 0.39, .high = 0.45, .trials = 900},
                .next_pot = 0.83,
                .fouls = 0.02};
  facts.cushions = {"right", "top"};
  facts.running_side = true;
  facts.travel_after_m = 1.35;
  facts.table_length_m = 1.83;
  facts.stop = {.cushion = "top",
                .gap_m = 0.08,
                .area = "beyond the spot",
                .next_ball = "red 1",
                .to_next_m = 0.42};
  facts.next = NextFacts{"red 1", "the top-left", "three-quarter ball"};
  facts.risks = {{"missed thin", 0.2}, {"in-off", 0.03}};
  facts.missed_thin = 0.2;
  facts.missed_thick = 0.06;
  return facts;
}

TEST(AShotInWords, SaysBallPocketAndThicknessFirst) {
  EXPECT_EQ(words_of(stun_to_the_middle()).headline, "Red 3 to the middle-left, half ball");
}

TEST(AShotInWords, SaysWhereToStrikeAndThePaceAsAResult) {
  EXPECT_EQ(words_of(stun_to_the_middle()).strike,
            "Strike low, with a touch of side on the right: the cue points three-quarters of a tip "
            "below centre and half a tip to the right. Medium pace: the cue ball leaves the tip at "
            "1.6 m/s and runs about three-quarters of a table length after the contact.");
}

TEST(AShotInWords, KeepsQuietAboutAPlainBridge) {
  EXPECT_THAT(words_of(stun_to_the_middle()).access, IsEmpty());
}

TEST(AShotInWords, SaysWhatIsInTheWayOfTheCue) {
  ShotFacts facts = stun_to_the_middle();
  facts.access = {.elevation_deg = 18,
                  .raised_by = "yellow 3",
                  .support = coach::Support::raised,
                  .own_hand = "right",
                  .error_factor = 1.6,
                  .lost_share = 0.4,
                  .lost_where = "low",
                  .lost_because = "the cue would touch yellow 3"};
  EXPECT_EQ(words_of(facts).access,
            "Yellow 3 asks for the butt 18° up: raised bridge. That makes the error in direction "
            "1.6 times as large. About a third of the face, low, cannot be played: the cue would "
            "touch yellow 3.");
}

TEST(AShotInWords, SaysWhyARestOrTheOtherHandIsNeeded) {
  ShotFacts facts = stun_to_the_middle();
  facts.access = {.support = coach::Support::rest,
                  .own_hand = "right",
                  .error_factor = 1.5,
                  .not_own_hand = "too far to reach"};
  EXPECT_THAT(words_of(facts).access, HasSubstr("Too far to reach: use the rest."));
  facts.access.support = coach::Support::open;
  facts.access.hand = coach::Hand::left;
  EXPECT_THAT(words_of(facts).access,
              HasSubstr("Too far to reach: play it with the left hand, open bridge."));
  EXPECT_EQ(carried_words(facts.access), "open bridge, left hand");
}

TEST(AShotInWords, HasAWordForEveryReason) {
  const coach::Layout layout{.balls = {{.id = "cue"}, {.id = "yellow-3"}}};
  const auto why = [&](coach::Blocked blocked, int ball) {
    return why_not_words({.blocked = coach::Reason{.why = blocked, .ball = ball}}, layout);
  };
  EXPECT_EQ(why(coach::Blocked::cue_meets_ball, 1), "the cue would touch yellow 3");
  EXPECT_EQ(why(coach::Blocked::cue_meets_cushion, 0), "the cue would touch the cushion");
  EXPECT_EQ(why(coach::Blocked::no_room, 1), "no room for the hand behind the cue ball (yellow 3)");
  EXPECT_EQ(why(coach::Blocked::no_room, 0), "no ground for the hand behind the cue ball");
  EXPECT_EQ(why(coach::Blocked::too_far, 0), "too far to reach");
  EXPECT_EQ(why(coach::Blocked::bridge_too_low, 1), "no bridge is high enough to clear yellow 3");
  EXPECT_EQ(why(coach::Blocked::butt_too_high, 0), "the butt cannot be held that high");
  EXPECT_EQ(why_not_words({.elevation_rad = 0.7, .raised_by = coach::InTheWay::cushion}, layout),
            "the butt would be more than 30° up over the cushion");
}

TEST(AShotInWords, SaysWhatTheCueBallDoesAndWhereItStops) {
  EXPECT_EQ(
      words_of(stun_to_the_middle()).cue_ball,
      "The cue ball arrives with no roll either way, a stun. After the contact it meets the "
      "right and the top cushions, where running side widens its angle and keeps its pace, and "
      "stops beyond the spot, 80 mm off the top cushion, 420 mm from red 1.");
}

TEST(AShotInWords, NamesNoSideAtTheCushionThatWasNotStruck) {
  ShotFacts facts = stun_to_the_middle();
  facts.best.strike.side = 0.05;
  EXPECT_THAT(words_of(facts).cue_ball,
              HasSubstr("where a trace of side, picked up on the way, widens its angle a little"));
}

TEST(AShotInWords, NamesTheStateAtContact) {
  ShotFacts facts = stun_to_the_middle();
  facts.roll_at_contact = 1;
  facts.best.strike.height = 0.2;
  EXPECT_THAT(words_of(facts).cue_ball, HasSubstr("arrives rolling"));
  facts.roll_at_contact = -0.5;
  EXPECT_THAT(words_of(facts).cue_ball, HasSubstr("back spin, a screw"));
}

TEST(AShotInWords, SaysWhatItLeavesAndHowGoodThatIs) {
  EXPECT_EQ(words_of(stun_to_the_middle()).why,
            "The leave is for red 1 to the top-left, three-quarter ball: the best next pot is, on "
            "average, about 8 in 10 (83%) when this one succeeds.");
}

TEST(AShotInWords, SaysWhatItMeansForTheClearance) {
  ShotFacts facts = stun_to_the_middle();
  const std::string plain = words_of(facts).why;
  facts.moment = {
      .problem = true, .goes_from = 0.12, .cover = "red 4", .frees = {"red 2", "red 3"}};
  EXPECT_EQ(words_of(facts).why,
            "Red 3 is a problem ball, which goes from only 12% of the table; red 4 stays as "
            "insurance. On its way it frees red 2 and red 3, which nothing could pot. " +
                plain);
  facts.moment = {.key_ball = true};
  EXPECT_EQ(words_of(facts).why, "Red 3 is the key ball, kept to lead to the black. " + plain);
}

TEST(AShotInWords, NamesTheMissAndTheWayItGoes) {
  EXPECT_EQ(words_of(stun_to_the_middle()).risk,
            "What goes wrong: missed thin about 2 in 10 and in-off about 1 in 30. Most misses are "
            "thin.");
}

TEST(AShotInWords, ClaimsNoNextBallAfterTheLast) {
  ShotFacts facts = stun_to_the_middle();
  facts.next.reset();
  facts.stop.next_ball.clear();
  const ShotWords words = words_of(facts);
  EXPECT_THAT(words.why, HasSubstr("Nothing follows"));
  EXPECT_THAT(words.chance, Not(HasSubstr("cleared")));
}

TEST(AShotInWords, SaysWhyTheRunnerUpLostWithBothFigures) {
  ShotFacts facts = stun_to_the_middle();
  OptionFacts other = facts.best;
  other.pot.value = 0.6;
  other.clear.value = 0.31;
  other.next_pot = 0.9;
  other.fouls = 0.11;
  facts.runner_up = other;
  facts.runner_up_same_pot = true;
  facts.why_lost = coach::WhyLost::harder_pot;
  EXPECT_THAT(words_of(facts).runner_up,
              AllOf(HasSubstr("The same pot, struck low"), HasSubstr("clears 31%, against 42%"),
                    HasSubstr("the pot is harder: 60% against 71%")));
  facts.why_lost = coach::WhyLost::more_fouls;
  EXPECT_THAT(words_of(facts).runner_up, HasSubstr("fouls more often: 11% against 2%"));
  facts.why_lost = coach::WhyLost::worse_position;
  EXPECT_THAT(words_of(facts).runner_up, HasSubstr("leaves less"));
  facts.why_lost = coach::WhyLost::too_close_to_call;
  EXPECT_THAT(words_of(facts).runner_up, HasSubstr("cannot tell the two apart"));
  facts.runner_up_is_better = true;
  EXPECT_THAT(words_of(facts).runner_up, HasSubstr("it is the better shot"));
}

TEST(AShotInWords, WarnsOfARaisedCueFromFifteenDegrees) {
  ShotFacts facts = stun_to_the_middle();
  facts.best.strike.elevation_deg = 14.9;
  EXPECT_THAT(words_of(facts).caution, IsEmpty());
  facts.best.strike.elevation_deg = 18;
  EXPECT_THAT(words_of(facts).caution, AllOf(HasSubstr("Raised cue (18°)"), HasSubstr("coach")));
  facts.best.strike.elevation_deg = 32;
  EXPECT_THAT(words_of(facts).caution, HasSubstr("cloth is at risk"));
}

// Bare words that two readers understand differently (common practice).
TEST(AShotInWords, AvoidsBareWords) {
  for (std::size_t i = 0; i < played::plan().shots.size(); ++i) {
    for (const std::string& each : sentences(shot_words(played::plan(), i))) {
      for (const char* bare : {" hard ", " soft ", " english ", "sidespin", " rail", " bank "}) {
        EXPECT_THAT(each, Not(HasSubstr(bare)));
      }
      EXPECT_THAT(each, Not(HasSubstr("  ")));
    }
  }
}

TEST(TheFactsOfAShot, ComeFromTheSimulatedShot) {
  const coach::Plan& plan = played::plan();
  ASSERT_GE(plan.shots.size(), 3U);
  for (std::size_t i = 0; i < plan.shots.size(); ++i) {
    const coach::PlannedShot& shot = plan.shots[i];
    const ShotFacts facts = shot_facts(plan, i);
    EXPECT_DOUBLE_EQ(facts.best.strike.cue_ball_speed_mps,
                     engine::norm(shot.best.intended.stretches.front().start.velocity));
    EXPECT_LE(facts.cushions.size(), static_cast<std::size_t>(shot.best.cue_path.cushions_after));
    EXPECT_EQ(facts.next.has_value(), i + 1 < plan.shots.size());
  }
}

TEST(APlanInWords, NamesTheColourTheChanceAndTheLimits) {
  coach::Plan plan;
  plan.colour = coach::ToPlay::yellow;
  plan.clear = {.value = 0.31, .low = 0.28, .high = 0.34, .trials = 1000};
  plan.weighed = {{coach::ToPlay::red, {.value = 0.2, .low = 0.18, .high = 0.22, .trials = 1000}},
                  {coach::ToPlay::yellow, plan.clear}};
  const PlanWords words = plan_words(plan);
  EXPECT_THAT(words.title, HasSubstr("yellows and the black"));
  EXPECT_EQ(words.colour,
            "Play the yellows: they clear about 3 in 10 (31%, 95% interval 28 to 34), the reds "
            "about 2 in 10 (20%, 95% interval 18 to 22).");
  EXPECT_THAT(words.honesty, HasSubstr("no substitute for a coach"));
}

TEST(APlanInWords, AdmitsWhenTheColoursCannotBeToldApart) {
  coach::Plan plan;
  plan.colour = coach::ToPlay::red;
  plan.weighed = {
      {coach::ToPlay::red, {.value = 0.31, .low = 0.28, .high = 0.34, .trials = 900}},
      {coach::ToPlay::yellow, {.value = 0.29, .low = 0.26, .high = 0.32, .trials = 900}}};
  EXPECT_THAT(plan_words(plan).colour, HasSubstr("cannot tell the two apart"));
}

TEST(ABetInWords, SaysWhichWayAndWhatForAndNothingWhenItWasNotWeighed) {
  coach::Plan plan = played::plan();
  EXPECT_THAT(bet_words(plan), IsEmpty());
  const coach::ShotOption& first = plan.shots.front().best;
  plan.clear.value = 0.1;
  plan.bet = coach::Bet{.after_failure = 0.5,
                        .safe = {.ball = 1,
                                 .strike = first.strike,
                                 .thickness = 0.5,
                                 .cut_rad = 0.52,
                                 .cut_to_left = true,
                                 .intended = first.intended,
                                 .clears = 0.02,
                                 .best_pot = 0.1,
                                 .tries = 200},
                        .attack = 0.33,
                        .defence = 0.49};
  EXPECT_THAT(bet_words(plan),
              AllOf(HasSubstr("Clearing is a bad bet here"),
                    HasSubstr("the opponent clears 50% on average"), HasSubstr("Rather play safe"),
                    HasSubstr("half ball"), HasSubstr("in none of 200 tries")));
  plan.bet->safe.pocket = 2;
  plan.bet->safe.pots = 0.25;
  EXPECT_THAT(bet_words(plan),
              AllOf(HasSubstr("Rather play a shot to nothing"), HasSubstr("to the middle-left"),
                    HasSubstr("It goes about 3 in 10. When it does not, an opponent")));
  plan.bet->attack = 0.5;
  EXPECT_THAT(bet_words(plan), HasSubstr("too close to call"));
  plan.bet->attack = 0.7;
  EXPECT_THAT(bet_words(plan), AllOf(HasSubstr("worth the try"), Not(HasSubstr("The safe play"))));
  EXPECT_THAT(sentences(plan_words(plan)), Contains(bet_words(plan)));
}

}  // namespace
}  // namespace ahead::lesson
