#include <vector>

#include <gtest/gtest.h>

#include "engine/equipment/presets.h"
#include "tests/support/shot_facts.h"

namespace ahead::test {
namespace {

// Top spin drives a slow ball on into a frozen pair, contact after contact: what each may sink must
// not add up.
TEST(ABallThatIsDrivenIntoAFrozenPair, DoesNotSinkDeeperWithEveryContact) {
  const engine::Playfield field(*engine::table_preset("english-7ft-match"));
  const double R = field.table().object_ball.radius_m;
  for (const double v_mps : {0.02, 0.05, 0.1}) {
    const std::vector<engine::Vec2> places{{0.45, 0.6 - 2 * R}, {0.45, 0.6}, {0.45, 0.6 + 2 * R}};
    std::vector<engine::BallState> balls;
    for (const engine::Vec2 place : places) balls.push_back({.position = lift(place, R)});
    balls[0].velocity = {0, v_mps, 0};
    balls[0].spin = {-8 * v_mps / R, 0, 0};
    const engine::Shot shot = simulate_from(field, balls);
    EXPECT_GT(count_of(shot, engine::EventKind::group), 5);
    EXPECT_LT(deepest_overlaps(shot, field, places).balls_m, 1e-6);
  }
}

}  // namespace
}  // namespace ahead::test
