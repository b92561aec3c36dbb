#include "coach/rules/visit.h"

#include <algorithm>
#include <vector>

#include <gtest/gtest.h>

#include "tests/coach/scene_of_balls.h"

// Verdicts of docs/rules.md, on shots written by hand.
namespace ahead::coach {
namespace {

constexpr int cue = 0;
constexpr int yellow = 1;
constexpr int other_yellow = 2;
constexpr int red = 3;
constexpr int black = 4;

struct Written {
  int first = -1;                ///< ball met first
  std::vector<int> potted = {};  ///< into pocket 0
};

Verdict verdict(Rules rules, ToPlay to_play, const Written& written, BallSet gone = 0,
                int called = yellow) {
  const Layout layout = test::layout_of({{"cue", {400, 300}},
                                         {"yellow-1", {300, 600}},
                                         {"yellow-2", {600, 600}},
                                         {"red-1", {300, 1200}},
                                         {"black", {457, 1372}}},
                                        to_play, rules);
  const Task task = task_of(layout, to_play);
  std::vector<int> indices;
  BallSet present = 0;
  engine::Shot shot;
  for (int ball = 0; ball < 5; ++ball) {
    if (has(gone, ball)) continue;
    indices.push_back(ball);
    present |= bit(ball);
    engine::Ending ending;
    if (std::ranges::find(written.potted, ball) != written.potted.end()) ending.pocket = 0;
    shot.endings.push_back(ending);
  }
  if (written.first >= 0) {
    const auto at = std::ranges::find(indices, written.first) - indices.begin();
    shot.events.push_back(engine::Event{
        .kind = engine::EventKind::ball_ball, .ball = 0, .other = static_cast<int>(at)});
  }
  return judge(task, shot, indices, present, called, 0);
}

TEST(AVisit, IsForTheBlackOnceItsColourHasGone) {
  const auto left = [](const char* ball, ToPlay colour) {
    return left_to_play(
        test::layout_of({{"cue", {400, 300}}, {ball, {300, 600}}, {"black", {457, 1372}}},
                        ToPlay::black, Rules::world),
        colour);
  };
  EXPECT_EQ(left("red-1", ToPlay::red), ToPlay::red);
  EXPECT_EQ(left("yellow-1", ToPlay::red), ToPlay::black);
  EXPECT_EQ(left("yellow-1", ToPlay::open), ToPlay::open);
}

TEST(AVisit, GoesOnWithAnOwnBall) {
  EXPECT_EQ(verdict(Rules::world, ToPlay::yellow, {yellow, {yellow}}), Verdict::goes_on);
}

TEST(AVisit, EndsWithoutAPot) {
  EXPECT_EQ(verdict(Rules::world, ToPlay::yellow, {yellow, {}}), Verdict::missed);
}

// T5 and T6: yellow hit first, yellow and red potted.
TEST(AVisit, ForgivesAnOpponentsBallWithOnesOwnOnlyByTheNewerRules) {
  EXPECT_EQ(verdict(Rules::blackball, ToPlay::yellow, {yellow, {yellow, red}}), Verdict::goes_on);
  EXPECT_EQ(verdict(Rules::international, ToPlay::yellow, {yellow, {yellow, red}}),
            Verdict::goes_on);
  EXPECT_EQ(verdict(Rules::world, ToPlay::yellow, {yellow, {yellow, red}}), Verdict::wrong_potted);
}

// T7: yellow first, only red potted: the turn is lost.
TEST(AVisit, EndsWhenOnlyAnOpponentsBallFalls) {
  EXPECT_EQ(verdict(Rules::international, ToPlay::yellow, {yellow, {red}}), Verdict::missed);
}

// T9: cue ball potted with an own ball.
TEST(AVisit, EndsInOff) {
  EXPECT_EQ(verdict(Rules::international, ToPlay::yellow, {yellow, {yellow, cue}}),
            Verdict::in_off);
}

TEST(AVisit, EndsOnTheWrongBallFirst) {
  EXPECT_EQ(verdict(Rules::world, ToPlay::yellow, {red, {yellow}}), Verdict::wrong_first);
  EXPECT_EQ(verdict(Rules::world, ToPlay::yellow, {}), Verdict::wrong_first);
}

// T20: last yellow and black in one shot.
TEST(AVisit, LosesTheBlackWithTheLastOwnBall) {
  EXPECT_EQ(verdict(Rules::world, ToPlay::yellow, {yellow, {yellow, black}}, bit(other_yellow)),
            Verdict::wrong_potted);
}

TEST(AVisit, IsClearedByTheBlackAlone) {
  EXPECT_EQ(verdict(Rules::world, ToPlay::yellow, {black, {black}}, bit(yellow) | bit(other_yellow),
                    black),
            Verdict::cleared);
}

}  // namespace
}  // namespace ahead::coach
