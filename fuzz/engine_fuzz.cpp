#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <numbers>
#include <string>
#include <vector>

#include <fuzzer/FuzzedDataProvider.h>

#include "engine/contact/cushion.h"
#include "engine/equipment/presets.h"
#include "engine/simulate/simulate.h"
#include "engine/simulate/stretch.h"

// Any layout on an English table, and any strike that the cue allows: the shot must end, in good
// time, with every ball somewhere and every number a number.
namespace ahead::fuzz {
namespace {

using engine::Table;
using engine::Vec2;

/// A break of fifteen balls takes a few hundred events; 2 to 8 balls that take this many never end.
constexpr std::size_t plenty_of_events = 4000;

double touching_m(const Table& table, std::size_t a, std::size_t b) {
  const auto radius_m = [&](std::size_t i) {
    return engine::ball_of(table, static_cast<int>(i)).radius_m;
  };
  return 2 * std::sqrt(radius_m(a) * radius_m(b));
}

/// Somewhere on the bed, at a cushion, or at a ball that is there already.
Vec2 any_place(FuzzedDataProvider& bytes, const Table& table, const std::vector<Vec2>& balls,
               double reach_m) {
  constexpr double hair_m = 1e-12;
  const auto part = [&] { return bytes.ConsumeProbability<double>(); };
  const double across = table.width_m - 2 * reach_m;
  const double along = table.length_m - 2 * reach_m;
  Vec2 place{reach_m + part() * across, reach_m + part() * along};
  switch (bytes.ConsumeIntegralInRange(0, 6)) {
    case 0:
      place.x = reach_m + hair_m;
      break;
    case 1:
      place.x = table.width_m - reach_m - hair_m;
      break;
    case 2:
      place.y = reach_m + hair_m;
      break;
    case 3:
      place.y = table.length_m - reach_m - hair_m;
      break;
    case 4: {
      if (balls.empty()) break;
      const auto friend_of = bytes.ConsumeIntegralInRange<std::size_t>(0, balls.size() - 1);
      const double gap_m = bytes.ConsumeBool() ? hair_m : 0.003 * part();
      place = balls[friend_of] + (touching_m(table, friend_of, balls.size()) + gap_m) *
                                     engine::direction(2 * std::numbers::pi * part());
      break;
    }
    default:
      break;
  }
  return place;
}

bool fits(const Table& table, const std::vector<Vec2>& balls, Vec2 place, double reach_m) {
  for (std::size_t i = 0; i < balls.size(); ++i) {
    if (norm(balls[i] - place) < touching_m(table, i, balls.size())) return false;
  }
  const auto in_a_pocket = [&](const engine::Pocket& pocket) {
    return norm(pocket.centre - place) < pocket.fall_radius_m + reach_m;
  };
  return place.x > reach_m && place.x < table.width_m - reach_m && place.y > reach_m &&
         place.y < table.length_m - reach_m && std::ranges::none_of(table.pockets, in_a_pocket);
}

std::vector<Vec2> any_layout(FuzzedDataProvider& bytes, const Table& table) {
  std::vector<Vec2> balls;
  const int wanted = bytes.ConsumeIntegralInRange(2, 8);
  for (int i = 0; i < 3 * wanted && static_cast<int>(balls.size()) < wanted; ++i) {
    const double reach_m = engine::nose_reach_m(
        engine::ball_of(table, static_cast<int>(balls.size())), table.nose_height_m);
    const Vec2 place = any_place(bytes, table, balls, reach_m);
    if (fits(table, balls, place, reach_m)) balls.push_back(place);
  }
  return balls;
}

engine::Strike any_strike(FuzzedDataProvider& bytes, const Table& table,
                          const std::vector<Vec2>& balls) {
  const auto part = [&] { return bytes.ConsumeProbability<double>(); };
  const double off = 0.999 * table.cue.miscue_offset * part();
  const double where_rad = 2 * std::numbers::pi * part();
  engine::Strike strike{.elevation_rad = bytes.ConsumeBool() ? std::numbers::pi / 2 * part() : 0,
                        .side = off * std::cos(where_rad),
                        .height = off * std::sin(where_rad),
                        .cue_speed_mps = 0.05 + 7 * part()};
  strike.aim_rad = 2 * std::numbers::pi * part();
  if (balls.size() > 1 && bytes.ConsumeBool()) {
    const auto at = bytes.ConsumeIntegralInRange<std::size_t>(1, balls.size() - 1);
    strike.aim_rad = engine::angle_rad(balls[at] - balls[0]) + 0.1 * (part() - 0.5);
  }
  return strike;
}

bool finite(engine::Vec3 v) {
  return std::isfinite(v.x) && std::isfinite(v.y) && std::isfinite(v.z);
}

void expect(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "the shot breaks a promise: %s\n", what);
  std::abort();
}

void check(const engine::Shot& shot, const Table& table, std::size_t balls) {
  expect(shot.events.size() < plenty_of_events, "it ends in good time");
  expect(std::isfinite(shot.settled_s) && shot.settled_s >= shot.still_s, "it has an end in time");
  expect(shot.endings.size() == balls, "every ball has an ending");
  for (const engine::Ending& ending : shot.endings) {
    expect(finite(ending.position), "every ball ends somewhere");
    if (!ending.on_table()) continue;
    // Jaws let a ball stand a little outside the playing area, in front of the fall.
    const double outside_m = table.object_ball.radius_m * 2;
    const Vec2 at = engine::plan(ending.position);
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
}

/// For a person who looks into a crash: AHEAD_SHOW=1 build/fuzz/fuzz/engine_fuzz FILE.
void show(const std::vector<Vec2>& balls, const engine::Strike& strike) {
  for (const Vec2 at : balls) std::fprintf(stderr, "ball {%.17g, %.17g}\n", at.x, at.y);
  std::fprintf(stderr, "strike aim %.17g elevation %.17g side %.17g height %.17g speed %.17g\n",
               strike.aim_rad, strike.elevation_rad, strike.side, strike.height,
               strike.cue_speed_mps);
}

}  // namespace
}  // namespace ahead::fuzz

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace ahead;
  static const engine::Playfield field(*engine::table_preset("english-7ft"));
  FuzzedDataProvider bytes(data, size);
  const auto balls = fuzz::any_layout(bytes, field.table());
  if (balls.empty()) return 0;
  const auto strike = fuzz::any_strike(bytes, field.table(), balls);
  if (std::getenv("AHEAD_SHOW") != nullptr) fuzz::show(balls, strike);
  fuzz::check(engine::simulate(field, balls, strike), field.table(), balls.size());
  return 0;
}
