#include "coach/pots/gate.h"

#include <gtest/gtest.h>

#include "coach/pots/gate.h"
#include "coach/risk/tries.h"
#include "engine/equipment/presets.h"
#include "tests/coach/scene_of_balls.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

const engine::Playfield& seven_foot() {
  static const engine::Playfield field(*engine::table_preset("english-7ft"));
  return field;
}

constexpr int bottom_left = 0;
constexpr int middle_left = 2;
constexpr int bottom_right = 1;

std::optional<Gate> gate(Vec2 ball, int pocket, double speed_mps,
                         const std::vector<Vec2>& obstacles = {}) {
  return find_gate(seven_foot(), ball, pocket, speed_mps, obstacles, exact_gate);
}

// Common practice, no source: jaws forgive a slow ball more than a firm one.
TEST(AGate, NarrowsWithPace) {
  const Vec2 ball{0.45, 0.6};

  EXPECT_GT(gate(ball, bottom_left, 1.0)->half_width_rad(),
            gate(ball, bottom_left, 3.0)->half_width_rad());
}

// Common practice, no source: a middle pocket closes as the approach slants; a corner hardly does.
TEST(AGate, OfAMiddlePocketClosesWithTheAngle) {
  const double straight = gate({0.35, 0.9144}, middle_left, 1.5)->half_width_rad();
  const auto slanting = gate({0.25, 1.24}, middle_left, 1.5);

  EXPECT_TRUE(!slanting || slanting->half_width_rad() < 0.8 * straight);
}

TEST(AGate, IsTheMirrorImageOnAMirroredTable) {
  const Gate left = *gate({0.3, 0.5}, bottom_left, 1.5);
  const Gate right = *gate({0.9144 - 0.3, 0.5}, bottom_right, 1.5);

  EXPECT_NEAR(left.half_width_rad(), right.half_width_rad(), 2e-5);
}

TEST(AGate, IsShutByABallInTheWay) {
  const Vec2 ball{0.45, 0.6};

  EXPECT_TRUE(gate(ball, bottom_left, 1.5));
  EXPECT_FALSE(gate(ball, bottom_left, 1.5, {{0.225, 0.3}}));
}

// A ball that is too slow to reach the pocket has no gate; one that just reaches it has.
TEST(TheGates, BeginAtTheSlowestPaceThatReachesThePocket) {
  const PotGates gates = find_gates(seven_foot(), {0.3, 0.4}, bottom_left, {});
  ASSERT_FALSE(gates.none());
  const double slowest_mps = gates.speeds_mps.front();
  EXPECT_FALSE(gate_at(gates, 0.99 * slowest_mps));
  EXPECT_TRUE(gate_at(gates, 1.01 * slowest_mps));
  EXPECT_FALSE(
      find_gate(seven_foot(), {0.3, 0.4}, bottom_left, 0.98 * slowest_mps, {}, exact_gate));
  EXPECT_TRUE(find_gate(seven_foot(), {0.3, 0.4}, bottom_left, 1.02 * slowest_mps, {}, exact_gate));
}

// Followed from pace to pace, the edges are those that a search of their own finds.
TEST(TheGates, AreThoseOfEachPaceByItself) {
  const PotGates gates = find_gates(seven_foot(), {0.45, 0.6}, bottom_left, {});
  for (std::size_t i = 2; i < PotGates::count; ++i) {
    const auto alone = gate({0.45, 0.6}, bottom_left, gates.speeds_mps[i]);
    ASSERT_TRUE(alone && gates.gates[i]) << i;
    EXPECT_NEAR(gates.gates[i]->from_rad, alone->from_rad, 2e-4) << i;
    EXPECT_NEAR(gates.gates[i]->to_rad, alone->to_rad, 2e-4) << i;
  }
}

}  // namespace
}  // namespace ahead::coach
