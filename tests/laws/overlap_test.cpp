#include <algorithm>
#include <cstdio>
#include <ostream>
#include <vector>

#include <gtest/gtest.h>

#include "engine/equipment/presets.h"
#include "tests/support/random_shots.h"
#include "tests/support/shot_facts.h"

// Nothing sinks into anything by more than a micrometre, at an event or between events.
namespace ahead::test {
namespace {

struct Table {
  const char* id;
  std::uint64_t seed;
  int shots;
};

void PrintTo(const Table& table, std::ostream* out) { *out << table.id; }

class NoBall : public ::testing::TestWithParam<Table> {};

TEST_P(NoBall, SinksIntoAnotherOrIntoACushion) {
  const engine::Playfield field(*engine::table_preset(GetParam().id));
  Dice dice(GetParam().seed);
  Overlaps worst;
  for (int i = 0; i < GetParam().shots; ++i) {
    const RandomShot random = random_shot(dice, field.table());
    const engine::Shot shot = simulate(field, random.balls, random.strike);
    const Overlaps deepest = deepest_overlaps(shot, field, random.balls);
    ASSERT_LT(deepest.balls_m, 1e-6) << in_code(random.balls, random.strike);
    ASSERT_LT(deepest.cushion_m, 1e-6) << in_code(random.balls, random.strike);
    worst.balls_m = std::max(worst.balls_m, deepest.balls_m);
    worst.cushion_m = std::max(worst.cushion_m, deepest.cushion_m);
  }
  std::printf("deepest: ball in ball %.2g m, ball in cushion %.2g m\n", worst.balls_m,
              worst.cushion_m);
}

INSTANTIATE_TEST_SUITE_P(On, NoBall,
                         ::testing::Values(Table{"english-7ft", 201, 8000},
                                           Table{"american-9ft", 202, 3000},
                                           Table{"snooker-12ft", 203, 2000}),
                         [](const auto& row) {
                           std::string name(row.param.id);
                           std::ranges::replace(name, '-', '_');
                           return name;
                         });

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
