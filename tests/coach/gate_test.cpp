#include "coach/pots/gate.h"

#include <gtest/gtest.h>

#include "coach/pots/pot_chance.h"
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

// The chance to first order is for choosing; brute force through the whole engine is the truth.
TEST(ThePotChance, IsNearWhatPlayingOutShows) {
  const Layout layout =
      test::layout_of({{"cue", {500, 900}}, {"red-1", {400, 500}}, {"black", {700, 1600}}});
  for (const char* player : {"novice", "club", "county", "professional"}) {
    const Scene scene = scene_of(layout, ToPlay::red, *player_preset(player));
    const Position position = position_of(layout);
    PacedGates gates;
    for (std::size_t i = 0; i < gates.size(); ++i) {
      gates[i] = gate(layout.balls[1].at, bottom_left, gate_paces_mps[i]);
    }
    const auto aimed = aim_through(layout.table, layout.balls[0].at, layout.balls[1].at, gates,
                                   {.elevation_rad = 0.06, .cue_speed_mps = 1.4});
    ASSERT_TRUE(aimed);

    const double quick =
        pot_chance(layout.table, scene.player, layout.balls[0].at, layout.balls[1].at, *aimed, 1);
    const auto tries = tries_of(
        scene, position, {.ball = 1, .pocket = bottom_left, .strike = aimed->aim.strike}, 2000, 9);
    int potted = 0;
    for (const Try& one : tries) potted += one.potted ? 1 : 0;

    // 2,000 tries are good to 0.01; the rest is what the straight line leaves out.
    EXPECT_NEAR(quick, potted / 2000.0, 0.06) << player;
  }
}

}  // namespace
}  // namespace ahead::coach
