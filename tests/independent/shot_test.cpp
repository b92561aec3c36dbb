#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <ostream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/contact/strike.h"
#include "engine/equipment/presets.h"
#include "engine/simulate/simulate.h"
#include "engine/simulate/stretch.h"
#include "tests/independent/play.h"
#include "tests/support/random_shots.h"
#include "tests/support/shot_facts.h"

// Whole shots against a general-purpose solver of differential equations. Shots of one to three
// contacts, because each contact multiplies what differs before it, so that after many nothing
// could be told; without the two things that the solver leaves out (play.h).
namespace ahead::independent {
namespace {

using engine::Event;
using engine::EventKind;
using engine::Shot;
using test::Dice;
using test::RandomShot;

constexpr double asked_m = 1e-4;
constexpr double asked_s = 1e-4;

int contacts(const Shot& shot) {
  return test::count_of(shot, EventKind::ball_ball) + test::count_of(shot, EventKind::cushion);
}

/// One to three contacts, all of them of the kinds that the solver knows.
bool comparable(const Shot& shot) {
  return contacts(shot) >= 1 && contacts(shot) <= 3 &&
         test::count_of(shot, EventKind::group) == 0 &&
         test::count_of(shot, EventKind::off_table) == 0;
}

std::vector<engine::BallState> struck(const RandomShot& random, const engine::Table& table) {
  std::vector<engine::BallState> states(random.balls.size());
  for (std::size_t i = 0; i < states.size(); ++i) {
    states[i].position =
        lift(random.balls[i], engine::ball_of(table, static_cast<int>(i)).radius_m);
  }
  states[0] = engine::struck(states[0], random.strike, table.cue_ball, table.cue, table.cloth);
  return states;
}

/// Whether a millionth more speed of the cue ball moves an end or an event by as much as is asked.
/// A ball that rattles on the points of a pocket multiplies what differs by thousands, and one that
/// all but stops before it meets another has no exact time of meeting.
bool on_a_knife_edge(const engine::Playfield& field, std::vector<engine::BallState> states,
                     const Shot& shot) {
  states[0].velocity = (1 + 1e-6) * states[0].velocity;
  states[0].spin = (1 + 1e-6) * states[0].spin;
  const Shot other = simulate_from(field, states);
  if (other.events.size() != shot.events.size()) return true;
  for (std::size_t k = 0; k < shot.events.size(); ++k) {
    if (std::abs(other.events[k].t_s - shot.events[k].t_s) > asked_s) return true;
  }
  for (std::size_t ball = 0; ball < shot.endings.size(); ++ball) {
    if (norm(other.endings[ball].position - shot.endings[ball].position) > asked_m) return true;
  }
  return false;
}

struct Trial {
  const char* table;
  std::uint64_t seed;
  int shots;
  double nap = 0;
  double within_s = asked_s;
};

void PrintTo(const Trial& trial, std::ostream* out) {
  *out << trial.table << (trial.nap > 0 ? " with nap" : "");
}

engine::Table table_of(const Trial& trial) {
  engine::Table table = *engine::table_preset(trial.table);
  table.cloth.nap = trial.nap;
  return table;
}

class TheEngine : public ::testing::TestWithParam<Trial> {};

TEST_P(TheEngine, AgreesWithASolverOfDifferentialEquations) {
  const engine::Playfield field(table_of(GetParam()));
  Dice dice(GetParam().seed);
  double worst_m = 0;
  double worst_s = 0;
  int compared = 0;
  int contacts_met = 0;
  int knife_edges = 0;
  while (compared < GetParam().shots) {
    const RandomShot random = test::random_shot(dice, field.table());
    if (random.balls.size() > 5) continue;
    const auto states = struck(random, field.table());
    const Shot shot = simulate_from(field, states);
    if (!comparable(shot)) continue;
    if (on_a_knife_edge(field, states, shot)) {
      ++knife_edges;
      continue;
    }
    ++compared;
    contacts_met += contacts(shot);
    const Played solved = play(field.table(), states);
    const std::string said = test::in_code(random.balls, random.strike);
    ASSERT_FALSE(solved.given_up) << said;
    ASSERT_EQ(solved.events.size(), shot.events.size()) << said;
    for (std::size_t k = 0; k < shot.events.size(); ++k) {
      const Event& ours = shot.events[k];
      const Event& theirs = solved.events[k];
      ASSERT_EQ(theirs.kind, ours.kind) << said;
      ASSERT_EQ(theirs.ball, ours.ball) << said;
      ASSERT_EQ(theirs.other, ours.other) << said;
      const double off_s = std::abs(theirs.t_s - ours.t_s);
      EXPECT_LT(off_s, GetParam().within_s) << said;
      worst_s = std::max(worst_s, off_s);
    }
    for (std::size_t ball = 0; ball < shot.endings.size(); ++ball) {
      const double off_m = norm(solved.ends[ball].position - shot.endings[ball].position);
      EXPECT_LT(off_m, asked_m) << said;
      worst_m = std::max(worst_m, off_m);
    }
  }
  EXPECT_LE(knife_edges, compared / 30);
  std::printf("%d shots with %d contacts, largest differences %.2g m and %.2g s; %d left out\n",
              compared, contacts_met, worst_m, worst_s, knife_edges);
}

// On nap slow balls run for longer and drift, so that times are less sharp.
INSTANTIATE_TEST_SUITE_P(On, TheEngine,
                         ::testing::Values(Trial{"english-7ft", 501, 300},
                                           Trial{"american-9ft", 502, 100},
                                           Trial{"english-7ft", 503, 100, 0.002, 1e-3}),
                         [](const auto& row) {
                           std::string name(row.param.table);
                           std::ranges::replace(name, '-', '_');
                           if (row.param.nap > 0) name += "_with_nap";
                           return name;
                         });

}  // namespace
}  // namespace ahead::independent
