#include <cstdlib>
#include <new>
#include <vector>

#include <gtest/gtest.h>

#include "engine/equipment/presets.h"
#include "engine/simulate/simulate.h"
#include "tests/support/random_shots.h"

// A thread's count of the memory it has asked for. Replacing the operators is the one way to see
// every request; they stay what they are otherwise.
namespace {
thread_local long requests = 0;
}  // namespace

void* operator new(std::size_t size) {
  ++requests;
  if (void* memory = std::malloc(size == 0 ? 1 : size)) return memory;
  throw std::bad_alloc();
}
void operator delete(void* memory) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t /*size*/) noexcept { std::free(memory); }

namespace ahead::test {
namespace {

std::vector<RandomShot> any_shots(const engine::Table& table, int count) {
  Dice dice(77);
  std::vector<RandomShot> shots;
  for (int i = 0; i < count; ++i) shots.push_back(random_shot(dice, table));
  return shots;
}

TEST(ASimulation, AsksForNoMemoryOnceItHasGrown) {
  const engine::Playfield field(*engine::table_preset("english-7ft"));
  const std::vector<RandomShot> shots = any_shots(field.table(), 500);
  engine::Simulation simulation(field);

  const long before = requests;
  for (const RandomShot& shot : shots) simulation.play(shot.balls, shot.strike);
  EXPECT_GT(requests, before) << "the count does not count";

  const long grown = requests;
  bool groups = false;
  for (const RandomShot& shot : shots) {
    for (const engine::Event& event : simulation.play(shot.balls, shot.strike).events) {
      groups = groups || event.kind == engine::EventKind::group;
    }
  }
  EXPECT_EQ(requests, grown);
  EXPECT_TRUE(groups) << "no shot met a touching group";
}

// Memory that is used again must not leak one shot into the next.
TEST(ASimulation, AnswersLikeAFreshOne) {
  const engine::Playfield field(*engine::table_preset("english-7ft"));
  engine::Simulation simulation(field);
  for (const RandomShot& shot : any_shots(field.table(), 300)) {
    EXPECT_EQ(simulation.play(shot.balls, shot.strike),
              engine::simulate(field, shot.balls, shot.strike));
  }
}

}  // namespace
}  // namespace ahead::test
