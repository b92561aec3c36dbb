#include "coach/read/colour_reading.h"

#include <algorithm>

#include "coach/plan/choose.h"
#include "coach/plan/clear_chance.h"

namespace ahead::coach {
namespace {

std::vector<BlackPocket> black_pockets(const Scene& scene, const Position& position, int black) {
  Position without = position;
  without.present &= ~scene.task.own;
  const Places places = places_of(scene.field, without);
  std::vector<BlackPocket> pockets;
  for (const Opening& opening : openings_of(scene.field, without, black)) {
    if (!opening.goes()) continue;
    const auto region = region_of(scene.field, without, black, opening, places);
    pockets.push_back({.pocket = opening.pocket, .share = share_of(region, places)});
  }
  std::ranges::stable_sort(pockets, std::ranges::greater{}, &BlackPocket::share);
  return pockets;
}

std::vector<KeyBall> key_balls(const Scene& scene, const ValueField& field,
                               const Position& position, const Places& places) {
  std::vector<KeyBall> keys;
  for (int ball = 1; ball < static_cast<int>(position.at.size()); ++ball) {
    if (!has(scene.task.own & position.present, ball)) continue;
    double both = 0;
    double first = 0;
    for (std::size_t place = 0; place < places.size(); ++place) {
      if (!places.free[place]) continue;
      both += field.value(bit(ball) | scene.task.black, places.at(place));
      first += field.best_pot(bit(ball) | scene.task.black, places.at(place));
    }
    keys.push_back({.ball = ball, .black_after = first > 0 ? both / first : 0});
  }
  std::ranges::stable_sort(keys, std::ranges::greater{}, &KeyBall::black_after);
  return keys;
}

}  // namespace

ColourReading read_colour(const Scene& scene, const Position& position,
                          const std::shared_ptr<const Glance>& glance, const Places& places,
                          std::uint64_t seed) {
  constexpr Budget budget = budget_of(Effort::quick);
  ColourReading reading{.colour = scene.task.colour, .own = scene.task.own & position.present};
  for (int ball = 1; ball < static_cast<int>(position.at.size()); ++ball) {
    if (has(scene.task.black & position.present, ball)) {
      reading.black = black_pockets(scene, position, ball);
    }
  }
  const ValueField field(scene, position, budget.grid, glance);
  if (scene.task.black != 0) reading.keys = key_balls(scene, field, position, places);
  long simulated = 0;
  const auto rivals = weigh_shots(scene, field, position, seed, simulated, budget.care);
  if (rivals.empty()) {
    reading.clear = {.high = 0};
    return reading;
  }
  const Prospect& best = rivals.front().prospect;
  reading.guide = rivals.front().worth;
  reading.first = {.ball = best.ball, .pocket = best.pocket, .pot = best.pot};
  reading.clear = clear_chance(
      scene, position,
      runs_of(scene, field, position, call_of(best), budget.first_runs, seed, simulated));
  return reading;
}

}  // namespace ahead::coach
