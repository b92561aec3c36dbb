#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>

#include <gtest/gtest.h>

#include "engine/contact/cushion.h"
#include "engine/equipment/presets.h"
#include "engine/simulate/stretch.h"
#include "tests/support/random_shots.h"
#include "tests/support/shot_facts.h"

// Every shot ends; every ball ends at rest on the table, in a pocket or off the table, and one that
// has left never comes back.
namespace ahead::test {
namespace {

/// What tells that a ball that left was heard of again, if anything.
bool comes_back(const engine::Shot& shot) {
  std::vector<double> left(shot.endings.size(), std::numeric_limits<double>::infinity());
  for (const engine::Event& event : shot.events) {
    for (std::size_t ball = 0; ball < left.size(); ++ball) {
      const bool named = event.ball == static_cast<int>(ball) ||
                         event.other == static_cast<int>(ball) || (event.members >> ball & 1U) != 0;
      if (named && left[ball] < std::numeric_limits<double>::infinity()) return true;
    }
    if (event.kind == engine::EventKind::pot || event.kind == engine::EventKind::off_table) {
      left[static_cast<std::size_t>(event.ball)] = event.t_s;
    }
  }
  return std::ranges::any_of(shot.stretches, [&](const engine::Stretch& stretch) {
    return stretch.t1_s > left[static_cast<std::size_t>(stretch.ball)];
  });
}

/// On the bed, clear of the noses, and in no fall.
bool rests_on_table(const engine::Ending& ending, const engine::Playfield& field, int index) {
  const engine::Table& table = field.table();
  const engine::Ball& ball = engine::ball_of(table, index);
  const engine::Vec2 p = plan(ending.position);
  // A ball may hang between the jaws, beyond the line of the noses.
  const double mouth_m = 2 * ball.radius_m;
  const bool inside = p.x > -mouth_m && p.x < table.width_m + mouth_m && p.y > -mouth_m &&
                      p.y < table.length_m + mouth_m;
  const bool in_a_fall = std::ranges::any_of(table.pockets, [&](const engine::Pocket& pocket) {
    return norm(p - pocket.centre) < pocket.fall_radius_m - 1e-9;
  });
  const double gap_m =
      norm(nearest_on(field.nose(), p) - p) - engine::nose_reach_m(ball, table.nose_height_m);
  return inside && !in_a_fall && gap_m > -1e-6 &&
         std::abs(ending.position.z - ball.radius_m) < 1e-9;
}

TEST(EveryShot, EndsLongBeforeTheEngineWouldStopIt) {
  const engine::Playfield field(*engine::table_preset("english-7ft"));
  Dice dice(301);
  std::size_t most = 0;
  for (int i = 0; i < 8000; ++i) {
    const RandomShot random = random_shot(dice, field.table());
    const engine::Shot shot = simulate(field, random.balls, random.strike);
    // The engine would stop the balls where they are after 20,000 events.
    ASSERT_LT(shot.events.size(), 6000U) << in_code(random.balls, random.strike);
    ASSERT_LT(shot.settled_s, 60) << in_code(random.balls, random.strike);
    ASSERT_LE(shot.still_s, shot.settled_s);
    most = std::max(most, shot.events.size());
  }
  std::printf("most events in one shot: %zu\n", most);
}

TEST(EveryBall, EndsAtRestOnTheTableOrInAPocketOrOffTheTable) {
  for (const char* id : {"english-7ft", "american-9ft"}) {
    const engine::Playfield field(*engine::table_preset(id));
    Dice dice(302);
    for (int i = 0; i < 3000; ++i) {
      const RandomShot random = random_shot(dice, field.table());
      const engine::Shot shot = simulate(field, random.balls, random.strike);
      for (std::size_t ball = 0; ball < shot.endings.size(); ++ball) {
        const engine::Ending& ending = shot.endings[ball];
        if (ending.on_table()) {
          ASSERT_TRUE(rests_on_table(ending, field, static_cast<int>(ball)))
              << "ball " << ball << " " << in_code(random.balls, random.strike);
        } else {
          ASSERT_NE(ending.pocket >= 0, ending.off_table);
        }
      }
    }
  }
}

TEST(ABallThatHasLeft, NeverComesBack) {
  const engine::Playfield field(*engine::table_preset("english-7ft"));
  Dice dice(303);
  int left = 0;
  for (int i = 0; i < 4000; ++i) {
    RandomShot random = random_shot(dice, field.table());
    random.strike.elevation_rad = dice.between(0, 0.78);
    const engine::Shot shot = simulate(field, random.balls, random.strike);
    ASSERT_FALSE(comes_back(shot)) << in_code(random.balls, random.strike);
    left += count_of(shot, engine::EventKind::pot) + count_of(shot, engine::EventKind::off_table);
  }
  EXPECT_GT(left, 300) << "too few balls left to say anything";
}

}  // namespace
}  // namespace ahead::test
