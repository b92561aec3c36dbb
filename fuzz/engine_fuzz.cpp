#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <vector>

#include "engine/motion/motion.h"
#include "engine/simulate/simulate.h"
#include "engine/simulate/stretch.h"
#include "fuzz/hard_states.h"

// Any state that hard_states.h can build: the shot must end, in good time, with every ball
// somewhere and every number a number.
namespace ahead::fuzz {
namespace {

/// A break of fifteen balls takes a few hundred events; balls that take this many never end.
constexpr std::size_t plenty_of_events = 9000;

bool finite(engine::Vec3 v) {
  return std::isfinite(v.x) && std::isfinite(v.y) && std::isfinite(v.z);
}

void expect(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "the shot breaks a promise: %s\n", what);
  std::abort();
}

/// Of all the balls just after `t_s`, J.
double energy_after(const engine::Shot& shot, const engine::Table& table, double t_s) {
  double energy = 0;
  for (const engine::Stretch& stretch : shot.stretches) {
    if (stretch.t0_s > t_s || stretch.t1_s <= t_s) continue;
    energy += engine::energy_j(state_at(stretch, table, t_s), engine::ball_of(table, stretch.ball));
  }
  return energy;
}

void check(const engine::Shot& shot, const HardState& given) {
  const engine::Table& table = given.field->table();
  // What is faster than anything in a room may circle the table a thousand times in a millisecond.
  expect(shot.stuck == 0 || given.huge, "it ends by itself");
  expect(shot.events.size() < plenty_of_events, "it ends in good time");
  expect(std::isfinite(shot.settled_s) && shot.settled_s >= shot.still_s, "it has an end in time");
  expect(shot.endings.size() == given.balls.size(), "every ball has an ending");
  for (const engine::Ending& ending : shot.endings) {
    expect(finite(ending.position), "every ball ends somewhere");
    if (!ending.on_table() || given.huge) continue;
    // Jaws let a ball stand a little outside the playing area, in front of the fall.
    const double outside_m = table.object_ball.radius_m * 2;
    const engine::Vec2 at = engine::plan(ending.position);
    expect(at.x > -outside_m && at.x < table.width_m + outside_m && at.y > -outside_m &&
               at.y < table.length_m + outside_m,
           "a ball on the table is on the table");
  }
  double last_s = 0;
  for (const engine::Event& event : shot.events) {
    expect(std::isfinite(event.t_s) && event.t_s >= last_s, "events come in order of time");
    expect(finite(event.at), "every event has a place");
    last_s = event.t_s;
  }
  for (const engine::Stretch& stretch : shot.stretches) {
    expect(std::isfinite(stretch.t0_s) && stretch.t1_s >= stretch.t0_s, "stretches have a length");
    expect(finite(stretch.start.position) && finite(stretch.start.velocity) &&
               finite(stretch.start.spin),
           "every stretch starts from numbers");
  }
  double before_j = energy_after(shot, table, 0);
  const double slack_j = 1e-9 * std::max(1e-3, before_j);
  for (std::size_t i = 0; i < std::min<std::size_t>(shot.events.size(), 200); ++i) {
    const double after_j = energy_after(shot, table, shot.events[i].t_s);
    expect(after_j <= before_j + slack_j, "energy never rises");
    before_j = after_j;
  }
}

/// For a person who looks into a crash: AHEAD_SHOW=1 build/fuzz/fuzz/engine_fuzz FILE.
void show(const HardState& given) {
  std::fprintf(stderr, "table %s\n", given.field->table().id.c_str());
  for (const engine::BallState& ball : given.balls) {
    for (const engine::Vec3 v : {ball.position, ball.velocity, ball.spin}) {
      std::fprintf(stderr, "{%.17g, %.17g, %.17g} ", v.x, v.y, v.z);
    }
    std::fprintf(stderr, "\n");
  }
}

}  // namespace
}  // namespace ahead::fuzz

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace ahead;
  const fuzz::HardState given = fuzz::hard_state(data, size);
  if (given.balls.empty()) return 0;
  if (std::getenv("AHEAD_SHOW") != nullptr) fuzz::show(given);
  fuzz::check(engine::simulate_from(*given.field, given.balls), given);
  return 0;
}
