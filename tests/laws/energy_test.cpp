#include <algorithm>
#include <cstdio>
#include <ostream>

#include <gtest/gtest.h>

#include "engine/equipment/presets.h"
#include "tests/support/random_shots.h"
#include "tests/support/shot_facts.h"

// Kinetic plus potential energy of all the balls never rises, from the strike to the end.
namespace ahead::test {
namespace {

struct Table {
  const char* id;
  std::uint64_t seed;
  int shots;
  double nap = 0;
};

void PrintTo(const Table& table, std::ostream* out) { *out << table.id; }

class TheEnergyOfAllBalls : public ::testing::TestWithParam<Table> {};

TEST_P(TheEnergyOfAllBalls, NeverRises) {
  engine::Table table = *engine::table_preset(GetParam().id);
  table.cloth.nap = GetParam().nap;
  const engine::Playfield field(table);
  Dice dice(GetParam().seed);
  double worst = -1;
  for (int i = 0; i < GetParam().shots; ++i) {
    const RandomShot random = random_shot(dice, field.table());
    const engine::Shot shot = simulate(field, random.balls, random.strike);
    const auto record = energies(shot, field.table());
    // Round-off of sums of a few joules.
    const double rise = largest_rise_j(record) / std::max(1e-3, record.front().energy_j);
    ASSERT_LT(rise, 1e-12) << in_code(random.balls, random.strike);
    worst = std::max(worst, rise);
  }
  std::printf("largest rise: %.2g of the energy given\n", worst);
}

INSTANTIATE_TEST_SUITE_P(On, TheEnergyOfAllBalls,
                         ::testing::Values(Table{"english-7ft", 101, 6000},
                                           Table{"american-9ft", 102, 3000},
                                           Table{"english-7ft-match", 103, 2000},
                                           Table{"english-7ft", 104, 200, 0.007}),
                         [](const auto& row) {
                           std::string name(row.param.id);
                           std::ranges::replace(name, '-', '_');
                           if (row.param.nap > 0) name += "_with_nap";
                           return name;
                         });

}  // namespace
}  // namespace ahead::test
