#include "coach/aim/aim.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include <gtest/gtest.h>

#include "engine/equipment/presets.h"
#include "engine/simulate/simulate.h"
#include "engine/simulate/stretch.h"
#include "tests/support/dice.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

/// Least distance between the rolling object ball's line and the target, by the whole engine.
/// Nothing when the cue ball runs into the ball a second time.
std::optional<double> engine_miss_m(const engine::Playfield& field, Vec2 cue, Vec2 object,
                                    Vec2 target, const engine::Strike& strike) {
  const engine::Shot shot = engine::simulate(field, std::vector{cue, object}, strike);
  const auto meetings =
      std::ranges::count(shot.events, engine::EventKind::ball_ball, &engine::Event::kind);
  if (meetings != 1) return std::nullopt;
  for (const engine::Stretch& stretch : engine::path_of(shot, 1)) {
    if (stretch.phase != engine::Phase::rolling) continue;
    const Vec2 along = engine::unit(engine::plan(stretch.start.velocity));
    return std::abs(engine::cross(target - engine::plan(stretch.start.position), along));
  }
  return std::nullopt;
}

// Deflection, swerve and throw are the engine's: an aim is right when the whole engine, from the
// strike on, rolls the ball through the target.
TEST(AnAim, SendsTheBallThroughTheTargetInTheWholeEngine) {
  engine::Table open = *engine::table_preset("english-7ft");
  open.width_m = 100;
  open.length_m = 100;
  open.rails.clear();
  open.pockets.clear();
  const engine::Playfield field(open);
  test::Dice dice(5);
  int solved = 0;
  int wide = 0;
  for (int i = 0; i < 300; ++i) {
    const Vec2 object{50, 50};
    const double towards = dice.between(0, 6.28);
    const Vec2 target = object + dice.between(0.3, 1.2) * engine::direction(towards);
    const double cut = dice.between(-1.0, 1.0);
    const Vec2 cue = object - dice.between(0.2, 1.0) * engine::direction(towards + cut);
    const engine::Strike touch{.elevation_rad = dice.between(0, 0.15),
                               .side = dice.between(-0.3, 0.3),
                               .height = dice.between(-0.35, 0.35),
                               .cue_speed_mps = dice.between(0.9, 3)};
    const auto aim = aim_at(open, cue, object, target, touch);
    if (!aim) continue;
    const auto miss_m = engine_miss_m(field, cue, object, target, aim->strike);
    if (!miss_m) continue;
    ++solved;
    if (*miss_m > 5e-4) ++wide;
  }
  EXPECT_GT(solved, 250);
  // A raised strike hops; a hop that ends at the very moment of contact may go either way.
  EXPECT_LE(wide, 1);
}

TEST(AnAim, IsNotFoundFromTheWrongSide) {
  const engine::Table table = *engine::table_preset("english-7ft");

  EXPECT_FALSE(aim_at(table, {0.4, 1.2}, {0.4, 1.0}, {0.4, 1.6}, {.cue_speed_mps = 1.5}));
}

// Unequal balls on the bed touch at 2 sqrt(R1 R2) in plan: 49.174 mm (docs/equipment.md, C14).
TEST(TheGhostBall, TouchesInPlan) {
  const engine::Table table = *engine::table_preset("english-7ft");

  const Vec2 ghost = ghost_ball(table, {0.4, 1.0}, {0.4, 1.5});

  EXPECT_NEAR(0.4, ghost.x, 1e-12);
  EXPECT_NEAR(1.0 - ghost.y, 0.049174, 1e-6);
}

}  // namespace
}  // namespace ahead::coach
