#include "coach/read/opening.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "engine/simulate/simulate.h"
#include "tests/coach/scene_of_balls.h"
#include "tests/support/dice.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

constexpr int bottom_left = 0;
constexpr int middle_left = 2;
constexpr double radius_m = 0.0254;

const engine::Playfield& seven_foot() {
  static const engine::Playfield field(*engine::table_preset("english-7ft"));
  return field;
}

/// A red at `red`, and others about the line from it to the bottom-left pocket: `along` m on it and
/// `aside` m to its left.
struct OnTheLine {
  double along = 0;
  double aside = 0;
};

const Vec2 red{0.457, 0.6};

Layout with_others(const std::vector<OnTheLine>& others) {
  Layout layout = test::layout_of({{"cue", {600, 1200}}, {"red-1", 1000 * red}});
  const Vec2 along = engine::unit(layout.table.pockets[bottom_left].centre - red);
  for (const OnTheLine& one : others) {
    layout.balls.push_back({.id = "yellow-1",
                            .colour = Colour::yellow,
                            .at = red + one.along * along + one.aside * engine::left_of(along)});
  }
  return layout;
}

Opening into(int pocket, const Layout& layout, int ball = 1) {
  return openings_of(seven_foot(), position_of(layout), ball)[static_cast<std::size_t>(pocket)];
}

TEST(AnOpening, OfALoneBallIsTheGateOfTheJaws) {
  const Opening opening = into(bottom_left, with_others({}));

  ASSERT_TRUE(opening.goes());
  for (std::size_t i = 0; i < gate_paces_mps.size(); ++i) {
    EXPECT_DOUBLE_EQ(opening.standing[i]->from_rad, opening.alone[i]->from_rad);
    EXPECT_DOUBLE_EQ(opening.standing[i]->to_rad, opening.alone[i]->to_rad);
  }
}

// Geometry: two balls whose surfaces are one ball and 2 mm apart, 250 mm on, leave 1 mm either way.
TEST(AnOpening, IsThereThroughAGapOneBallAndTwoMillimetresWide) {
  const double aside = 2 * radius_m + 0.001;
  const Opening opening = into(bottom_left, with_others({{0.25, aside}, {0.25, -aside}}));

  ASSERT_TRUE(opening.goes());
  const double half_rad =
      std::atan(aside / 0.25) - std::asin(2 * radius_m / std::hypot(aside, 0.25));
  EXPECT_NEAR(opening.standing[1]->half_width_rad(), half_rad, 2e-5);
}

// One millimetre too narrow: on the line in the middle each ball reaches in by half of it.
TEST(AnOpening, IsShutByAGapOneMillimetreTooNarrow) {
  const double aside = 2 * radius_m - 0.0005;
  const Opening opening = into(bottom_left, with_others({{0.25, aside}, {0.25, -aside}}));

  EXPECT_EQ(opening.shut, Shut::blocked);
  ASSERT_EQ(opening.blockers.size(), 2U);
  for (const Blocker& one : opening.blockers) EXPECT_NEAR(one.overlap_m, 0.0005, 2e-5);
}

// A ball full on the line leaves least to go at an edge of the gate: 2R less the edge's way off.
TEST(AnOpening, SaysHowFarABlockerMustGoAside) {
  const Opening alone = into(bottom_left, with_others({}));
  const double along = 0.3;
  const Opening opening = into(bottom_left, with_others({{along, 0}}));

  EXPECT_EQ(opening.shut, Shut::blocked);
  ASSERT_EQ(opening.blockers.size(), 1U);
  EXPECT_EQ(opening.blockers[0].ball, 2);
  const Vec2 line = seven_foot().table().pockets[bottom_left].centre - red;
  const Gate gate = *alone.alone[0];
  const double straight_rad = engine::angle_rad(line);
  const double off_rad = std::max(straight_rad - gate.from_rad, gate.to_rad - straight_rad);
  EXPECT_NEAR(opening.blockers[0].overlap_m, 2 * radius_m - along * std::sin(off_rad), 1e-4);
}

// Moved aside by what it overlaps, and a hair more, the ball is no longer in the way.
TEST(AnOpening, IsThereOnceTheBlockerHasGoneThatFar) {
  const double aside = 0.01;
  const Opening shut = into(bottom_left, with_others({{0.3, aside}}));
  ASSERT_EQ(shut.blockers.size(), 1U);
  const double overlap = shut.blockers[0].overlap_m;

  EXPECT_TRUE(into(bottom_left, with_others({{0.3, aside + overlap + 0.001}})).goes());
  EXPECT_FALSE(into(bottom_left, with_others({{0.3, aside + overlap - 0.001}})).goes());
}

// A ball frozen to the long cushion runs past the middle pocket on that cushion.
TEST(AnOpening, OfAFrozenBallIsShutByTheCushion) {
  const double reach = 1000 * seven_foot().object_ball().reach_m;
  const Layout layout = test::layout_of({{"cue", {600, 300}}, {"red-1", {reach, 500}}});

  EXPECT_EQ(into(middle_left, layout).shut, Shut::cushion);
  EXPECT_NEAR(cushion_room_m(seven_foot(), layout.balls[1].at), 0, 1e-6);
}

TEST(AnOpening, IsShutByTheJawsWhereTheAngleIsTooFlat) {
  const Layout layout = test::layout_of({{"cue", {600, 300}}, {"red-1", {120, 300}}});

  EXPECT_EQ(into(middle_left, layout).shut, Shut::angle);
}

// The engine is the judge: whatever a gate holds drops and touches nothing.
TEST(AnOpening, HoldsForEveryDirectionThatItStates) {
  test::Dice dice(11);
  int tried = 0;
  for (int table = 0; table < 12; ++table) {
    std::vector<Vec2> balls;
    while (balls.size() < 9) {
      const Vec2 at{dice.between(0.03, 0.88), dice.between(0.03, 1.79)};
      const bool free = std::ranges::all_of(
          balls, [&](Vec2 other) { return engine::norm(at - other) > 2 * radius_m; });
      if (free) balls.push_back(at);
    }
    const Position position{.at = balls, .present = (BallSet{1} << balls.size()) - 1};
    for (const Opening& opening : openings_of(seven_foot(), position, 1)) {
      for (std::size_t pace = 0; pace < gate_paces_mps.size(); ++pace) {
        if (!opening.standing[pace]) continue;
        const double part = dice.between(0.02, 0.98);
        const double rad =
            std::lerp(opening.standing[pace]->from_rad, opening.standing[pace]->to_rad, part);
        std::vector<engine::BallState> states;
        for (const Vec2 at : balls) states.push_back({.position = engine::lift(at, radius_m)});
        states[0].position = {-100, -100, 0.0238};  // the cue ball has done its work
        states[1].velocity = engine::lift(gate_paces_mps[pace] * engine::direction(rad));
        const engine::Shot shot = engine::simulate_from(seven_foot(), states);
        EXPECT_EQ(shot.endings[1].pocket, opening.pocket);
        for (std::size_t i = 2; i < balls.size(); ++i) {
          EXPECT_EQ(engine::plan(shot.endings[i].position), balls[i]);
        }
        ++tried;
      }
    }
  }
  EXPECT_GT(tried, 50);
}

}  // namespace
}  // namespace ahead::coach
