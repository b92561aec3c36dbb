#include "coach/pots/sight.h"

#include <cmath>

#include <gtest/gtest.h>

#include "tests/coach/scene_of_balls.h"

namespace ahead::coach {
namespace {

const engine::Playfield& seven_foot() {
  static const engine::Playfield field(*engine::table_preset("english-7ft"));
  return field;
}

std::vector<Sight> seen(const Layout& layout) {
  return sights_of(seven_foot(), position_of(layout));
}

/// Distance in plan at which cue ball and object ball touch, m.
double reach_m() {
  const engine::Table& table = seven_foot().table();
  return 2 * std::sqrt(table.cue_ball.radius_m * table.object_ball.radius_m);
}

TEST(ASight, OfALoneBallIsFull) {
  const Sight sight = seen(test::layout_of({{"cue", {400, 400}}, {"red-1", {500, 1200}}}))[0];

  EXPECT_EQ(sight.seen, 1);
  EXPECT_TRUE(sight.left_edge && sight.right_edge);
}

TEST(ASight, IsShutByABallStraightInFront) {
  const Sight sight = seen(
      test::layout_of({{"cue", {400, 400}}, {"red-1", {400, 1200}}, {"yellow-1", {400, 800}}}))[0];

  EXPECT_TRUE(sight.hidden());
  EXPECT_EQ(sight.hidden_by, std::vector<int>{2});
}

// Geometry: a ball 400 mm on hides the directions within asin(reach / d) of its own; the rest of
// the ball behind it is seen.
TEST(ASight, IsPartlyShutByABallBesideTheLine) {
  const Layout layout =
      test::layout_of({{"cue", {400, 400}}, {"red-1", {400, 1200}}, {"yellow-1", {330, 800}}});
  const double half_rad = std::asin(reach_m() / 0.8);
  const double edge_rad = std::atan(0.07 / 0.4) - std::asin(reach_m() / std::hypot(0.07, 0.4));

  const Sight sight = seen(layout)[0];

  EXPECT_NEAR(sight.seen, (edge_rad + half_rad) / (2 * half_rad), 1.0 / 400);  // 401 looks
  EXPECT_FALSE(sight.left_edge);
  EXPECT_TRUE(sight.right_edge);
}

// The cue ball in the fall of a middle pocket, behind its jaw: the jaw hides what lies along the
// cushion.
TEST(ASight, IsShutByAJaw) {
  const Layout layout = test::layout_of({{"cue", {-5, 914}}, {"red-1", {40, 1600}}});

  EXPECT_TRUE(seen(layout)[0].hidden());
}

TEST(ASight, KnowsATouchingBall) {
  const double touching_mm = 1000 * reach_m();
  EXPECT_TRUE(
      seen(test::layout_of({{"cue", {400, 400}}, {"red-1", {400, 400 + touching_mm + 0.0001}}}))[0]
          .touching);
  EXPECT_FALSE(
      seen(test::layout_of({{"cue", {400, 400}}, {"red-1", {400, 400 + touching_mm + 1}}}))[0]
          .touching);
}

}  // namespace
}  // namespace ahead::coach
