#include "coach/access/access.h"

#include <random>

#include <gtest/gtest.h>

#include "coach/player/scatter.h"
#include "tests/coach/access/scene.h"

namespace ahead::coach {
namespace {

using engine::Vec2;
using test::club;
using test::degrees;
using test::left_hander;
using test::reached;

Player without_rests(Player player) {
  player.bridging.rest = player.bridging.spider = false;
  return player;
}

TEST(Access, InTheOpenIsThePlainBridgeAtNoCost) {
  const Access open = reached({{300, 600}}).at(90);

  EXPECT_FALSE(open.blocked);
  EXPECT_EQ(open.support, Support::open);
  EXPECT_EQ(open.hand, Hand::right);
  EXPECT_EQ(open.error_factor, 1);
  EXPECT_FALSE(open.not_own_hand);
  EXPECT_LT(open.elevation_rad, 5 * degrees);
}

// The cue ball is 90 mm off the right cushion, high on the table, and is played up along it. A
// right-hander's body would have to be left of the line, 0.7 m over the bed; a left-hander stands
// on the floor at the right.
TEST(Access, AlongTheRightCushionIsALeftHandersShot) {
  const std::vector<Vec2> cue{{824, 1500}};
  const Access right = reached(cue, without_rests(club())).at(90);
  const Access left = reached(cue, left_hander()).at(90);

  ASSERT_FALSE(right.blocked);
  EXPECT_EQ(right.hand, Hand::left);
  EXPECT_EQ(right.error_factor, club().other_hand.factor);
  ASSERT_TRUE(right.not_own_hand);
  EXPECT_EQ(right.not_own_hand->why, Blocked::too_far);
  EXPECT_EQ(left.hand, Hand::left);
  EXPECT_EQ(left.error_factor, 1);
}

TEST(Access, TakesTheRestWhereItIsSurerThanTheOtherHand) {
  const Access rest = reached({{824, 1300}}).at(90);

  ASSERT_FALSE(rest.blocked);
  EXPECT_EQ(rest.support, Support::rest);
  EXPECT_EQ(rest.error_factor, club().rest.factor);
  EXPECT_EQ(rest.not_own_hand, (Reason{.why = Blocked::too_far}));
}

// A child of 1.2 m with a reach of 0.3 m in the middle of a 9 ft table, and nothing to help.
TEST(Access, IsBlockedWhereNothingReaches) {
  Player child = without_rests(club());
  child.reach_m = 0.3;
  child.height_m = 1.2;
  const test::Reached middle = reached({{457, 914}}, child);

  EXPECT_EQ(middle.at(90).blocked, (Reason{.why = Blocked::too_far}));
}

TEST(Access, AnExtensionReachesWhatTheRestAloneDoesNot) {
  Player player = club();
  player.reach_m = 0.45;
  player.cue.length_m = 0.9;
  EXPECT_EQ(reached({{457, 1500}}, player).at(90).blocked, (Reason{.why = Blocked::too_far}));
  player.bridging.extension_m = 0.6;
  EXPECT_EQ(reached({{457, 1500}}, player).at(90).support, Support::rest);
}

// 30 mm behind the cue ball stands a ball. The cue clears it at the elevation that trigonometry
// gives (cue_line_test.cpp); the hand stands on its fingertips behind it.
TEST(Access, OverABallIsARaisedBridgeAtTheClearingElevation) {
  const test::Reached over = reached({{457, 700}, {457, 700 - 79.2}});
  const Access access = over.at(90, 0.2);

  ASSERT_FALSE(access.blocked);
  EXPECT_EQ(access.support, Support::raised);
  EXPECT_EQ(access.raised_by, InTheWay::ball);
  EXPECT_EQ(access.raised_by_ball, 1);
  EXPECT_NEAR(access.elevation_rad / degrees, 19, 2);
  EXPECT_EQ(access.error_factor, club().raised_bridge.factor);
}

// A ball 20 mm behind: at the lowest strikes no bridge is high enough to clear it.
TEST(Access, OverABallEndsWhereTheBridgeIsTooLow) {
  Player player = without_rests(club());
  player.bridging.raised.high_m = 0.06;
  const Access low = reached({{457, 700}, {457, 700 - 69.2}}, player).at(90, -0.4);

  EXPECT_EQ(low.blocked, (Reason{.why = Blocked::bridge_too_low, .ball = 1}));
}

// Common practice, no source: tight on the cushion only strikes above the centre are possible
// without lifting the butt a long way.
TEST(Access, TightOnTheCushionIsABridgeOnTheRailAndSteep) {
  const test::Reached tight = reached({{300, 24}});
  const Access above = tight.at(90, 0.4);
  const Access below = tight.at(90, -0.3);

  ASSERT_FALSE(above.blocked);
  EXPECT_EQ(above.support, Support::rail);
  EXPECT_NE(above.raised_by, InTheWay::nothing);
  EXPECT_LT(above.elevation_rad, 15 * degrees);
  EXPECT_TRUE(below.blocked || below.elevation_rad > 40 * degrees);
  EXPECT_EQ(tight.at(90, -0.48).blocked, (Reason{.why = Blocked::cue_meets_cushion}));
}

// The cue ball lies between the jaws of the bottom-left pocket. Played out of it the cue passes
// over the pocket and the hand stands on the wood behind it; played across, the jaw is in the way.
TEST(Access, InTheJawsOnlyTheWayOutIsFree) {
  const test::Reached jaws = reached({{34, 34}});
  const Access out = jaws.at(45, 0.2);

  ASSERT_FALSE(out.blocked);
  EXPECT_EQ(out.support, Support::rail);
  const Access across = jaws.at(135, 0.2);
  EXPECT_TRUE(across.blocked || across.elevation_rad > out.elevation_rad);
}

// A ball that touches the cue ball straight behind must be cued over; one that touches it beside
// the cue takes away the side towards it; one in front does nothing.
TEST(Access, ATouchingBallTakesAwayWhatLiesTowardsIt) {
  const Vec2 cue{457, 700};
  const auto touching = [&](double from_deg) {
    const Vec2 off = 49.25 * engine::direction(from_deg * degrees);
    return reached({cue, cue + off});
  };
  const test::Reached behind = touching(-90);
  const Access beside = touching(-25).at(90, 0, 0.5);
  const Access away = touching(-25).at(90, 0, -0.5);
  const Access ahead = touching(80).at(90);

  EXPECT_EQ(behind.at(90, -0.4).blocked, (Reason{.why = Blocked::cue_meets_ball, .ball = 1}));
  EXPECT_GT(behind.at(90, 0.4).elevation_rad, 20 * degrees);
  EXPECT_TRUE(beside.blocked || beside.elevation_rad > 40 * degrees);
  EXPECT_LT(away.elevation_rad, 10 * degrees);
  EXPECT_FALSE(away.blocked);
  EXPECT_EQ(ahead, reached({cue}).at(90));
}

// Balls to the left and right of the line, the cue passes between them, the hand does not.
TEST(Access, HasNoRoomForTheHandBetweenBalls) {
  const Vec2 cue{457, 700};
  std::vector<Vec2> lane{cue};
  for (int i = 0; i < 6; ++i) {
    lane.push_back(cue + Vec2{-45, -90.0 - 55 * i});
    lane.push_back(cue + Vec2{45, -90.0 - 55 * i});
  }
  const Access blocked = reached(lane, without_rests(club())).at(90);

  ASSERT_TRUE(blocked.blocked);
  EXPECT_EQ(blocked.blocked->why, Blocked::no_room);
  EXPECT_NE(blocked.blocked->ball, 0);
}

// The same lane 20 mm wider takes the narrow head of the spider, which stands taller than a hand.
TEST(Access, ASpiderStandsWhereAHandDoesNot) {
  const Vec2 cue{457, 500};
  std::vector<Vec2> lane{cue};
  for (int i = 0; i < 6; ++i) {
    lane.push_back(cue + Vec2{-62, -90.0 - 55 * i});
    lane.push_back(cue + Vec2{62, -90.0 - 55 * i});
  }
  const Access spider = reached(lane).at(90);

  ASSERT_FALSE(spider.blocked);
  EXPECT_TRUE(spider.support == Support::spider || spider.support == Support::rest);
  EXPECT_EQ(spider.not_own_hand->why, Blocked::no_room);
}

// Drillis and Contini (1966): the shoulder is at 0.818 of the body's height (from memory). A child
// of 1 m has it below the grip of a steep cue.
TEST(Access, ASmallPlayerCannotHoldTheButtHigh) {
  Player child = without_rests(club());
  child.height_m = 1.05;
  const std::vector<Vec2> over{{457, 700}, {457, 700 - 79.2}};

  EXPECT_EQ(reached(over, child).at(90).blocked,
            (Reason{.why = Blocked::butt_too_high, .ball = 1}));
  EXPECT_FALSE(reached(over).at(90).blocked);
}

TEST(Access, AStretchCostsMoreThanAnEasyReach) {
  Player player = club();
  const std::vector<Vec2> cue{{457, 1000}};
  const Access easy = reached(cue, player).at(90);
  player.reach_m = 0.9 * player.reach_m * (0.8 + 0.2 * easy.stretch);
  const Access stretched = reached(cue, player).at(90);

  EXPECT_GT(stretched.error_factor, easy.error_factor);
}

/// A random table seen in a mirror across its long middle line.
struct Pair {
  test::Reached here;
  test::Reached mirrored;
};

Pair random_pair(std::mt19937& bits) {
  std::uniform_real_distribution<double> x(40, 874);
  std::uniform_real_distribution<double> y(40, 1788);
  std::vector<Vec2> places;
  while (places.size() < 9) {
    const Vec2 at{x(bits), y(bits)};
    if (std::ranges::all_of(places, [&](Vec2 p) { return engine::norm(p - at) > 52; })) {
      places.push_back(at);
    }
  }
  std::vector<Vec2> mirrored;
  for (const Vec2 at : places) mirrored.push_back({914.4 - at.x, at.y});
  Player right = without_rests(club());
  right.reach_m = 0.6;
  Player left = right;
  left.hand = Hand::left;
  return {reached(places, right), reached(mirrored, left)};
}

// Mirrored balls and a mirrored player: the mirrored strike, with the other hand.
TEST(Access, OfAMirroredTableAndHandIsTheMirroredOne) {
  std::mt19937 bits(4);
  std::uniform_real_distribution<double> aim(0, 360);
  std::uniform_real_distribution<double> offset(-0.35, 0.35);
  int blocked = 0;
  for (int i = 0; i < 300; ++i) {
    const Pair pair = random_pair(bits);
    const double aim_deg = aim(bits);
    const double height = offset(bits);
    const double side = offset(bits);
    const Access here = pair.here.at(aim_deg, height, side);
    const Access there = pair.mirrored.at(180 - aim_deg, height, -side);

    ASSERT_EQ(here.blocked, there.blocked) << i;
    blocked += here.blocked ? 1 : 0;
    if (here.blocked) continue;
    EXPECT_NEAR(here.elevation_rad, there.elevation_rad, 1e-6) << i;
    EXPECT_EQ(here.support, there.support) << i;
    EXPECT_NE(here.hand, there.hand) << i;
    EXPECT_NEAR(here.error_factor, there.error_factor, 1e-6) << i;
  }
  EXPECT_GT(blocked, 3);
}

/// Total error in direction of a strike, infinite when it cannot be made.
double error_of(const Player& player, const Access& access) {
  if (access.blocked) return std::numeric_limits<double>::infinity();
  return access.error_factor * raised_factor(player, access.elevation_rad);
}

// Widening the player's reach or adding a rest never makes a strike harder.
TEST(Access, GrowsWithReachAndRests) {
  std::mt19937 bits(5);
  std::uniform_real_distribution<double> aim(0, 360);
  const Player longer = without_rests(club());
  Player with_rests = club();
  with_rests.reach_m = 0.6;
  for (int i = 0; i < 200; ++i) {
    const Pair pair = random_pair(bits);
    const double aim_deg = aim(bits);
    test::Reached changed = pair.here;
    const double before = error_of(club(), pair.here.at(aim_deg));
    changed.scene.player = longer;
    EXPECT_LE(error_of(longer, changed.at(aim_deg)), before) << i;
    changed.scene.player = with_rests;
    EXPECT_LE(error_of(with_rests, changed.at(aim_deg)), before) << i;
  }
}

}  // namespace
}  // namespace ahead::coach
