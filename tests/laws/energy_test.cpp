#include <algorithm>

#include <gtest/gtest.h>

#include "engine/equipment/presets.h"
#include "tests/support/random_shots.h"
#include "tests/support/shot_facts.h"

// Energy on the presets' cloths, which have no nap, is a law of tests/laws/laws.h.
namespace ahead::test {
namespace {

TEST(TheEnergyOfAllBalls, NeverRisesOnClothWithNap) {
  engine::Table table = *engine::table_preset("english-7ft");
  table.cloth.nap = 0.007;
  const engine::Playfield field(table);
  Dice dice(104);
  for (int i = 0; i < 200; ++i) {
    const RandomShot random = random_shot(dice, field.table());
    const auto record = energies(simulate(field, random.balls, random.strike), field.table());
    // Round-off of sums of a few joules.
    const double rise = largest_rise_j(record) / std::max(1e-3, record.front().energy_j);
    ASSERT_LT(rise, 1e-12) << in_code(random.balls, random.strike);
  }
}

}  // namespace
}  // namespace ahead::test
