#include "coach/read/reading.h"

#include <algorithm>
#include <memory>

#include <tbb/parallel_for.h>

#include "coach/plan/moment.h"
#include "coach/rules/colours.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

/// The openings of a ball into the pockets that it does not go to, or hardly.
std::vector<Opening> pockets_to_open(const BallReading& ball) {
  std::vector<Opening> openings;
  for (const PocketReading& one : ball.pockets) {
    if (one.share < worth_opening) openings.push_back(one.opening);
  }
  return openings;
}

BallReading read_ball(const engine::Playfield& field, const Position& position, int ball,
                      Colour colour, const Places& places) {
  const Vec2 at = position.at[static_cast<std::size_t>(ball)];
  BallReading reading{.ball = ball, .cushion_room_m = cushion_room_m(field, at)};
  std::vector<bool> any(places.size(), false);
  for (Opening& opening : openings_of(field, position, ball)) {
    PocketReading one{.region = region_of(field, position, ball, opening, places)};
    one.share = share_of(one.region, places);
    if (opening.goes()) {
      const PotLine line = pot_line(field, position, ball, opening.gate());
      one.from_here = line_up(field.table(), position, line, position.at[0]);
    }
    for (std::size_t i = 0; i < any.size(); ++i) any[i] = any[i] || one.region[i];
    one.opening = std::move(opening);
    reading.pockets.push_back(std::move(one));
  }
  reading.share = share_of(any, places);
  const double near_m = 2 * field.table().object_ball.radius_m + cluster_m;
  for (int other = 1; other < static_cast<int>(position.at.size()); ++other) {
    if (other != ball && has(position.present, other) &&
        engine::norm(position.at[static_cast<std::size_t>(other)] - at) < near_m) {
      reading.neighbours.push_back(other);
    }
  }
  const bool hampered = !reading.neighbours.empty() && reading.share < most_places;
  reading.problem = reading.ways() == 0 || reading.share < few_places ||
                    reading.cushion_room_m < tight_m || hampered;
  reading.insurance = !reading.problem && colour != Colour::black && reading.ways() >= 2 &&
                      reading.share >= most_places;
  return reading;
}

/// Every ball but the cue ball.
std::vector<BallReading> balls_of(const engine::Playfield& field, const Position& position,
                                  const Layout& layout, const Places& places) {
  std::vector<BallReading> balls(layout.balls.size() - 1);
  tbb::parallel_for(std::size_t{0}, balls.size(), [&](std::size_t i) {
    balls[i] =
        read_ball(field, position, static_cast<int>(i) + 1, layout.balls[i + 1].colour, places);
  });
  return balls;
}

/// The worst problem first; insurance with the most places first; no problem ball as the key ball
/// where another is left.
void sort_roles(const Reading& reading, ColourReading& colour, BallSet black) {
  for (const BallReading& ball : reading.balls) {
    if (!has(colour.own | black, ball.ball)) continue;
    if (ball.problem) colour.problems.push_back(ball.ball);
    // Where the order is fixed no ball can be kept back.
    const bool free_order = colour.colour != ToPlay::colours;
    if (ball.insurance && free_order && has(colour.own, ball.ball))
      colour.insurance.push_back(ball.ball);
  }
  const auto share = [&](int ball) { return reading.of(ball).share; };
  std::ranges::stable_sort(colour.problems, {}, share);
  std::ranges::stable_sort(colour.insurance, std::ranges::greater{}, share);
  std::ranges::stable_partition(colour.keys,
                                [&](const KeyBall& key) { return !reading.of(key.ball).problem; });
}

/// Clearances played out decide; where they cannot tell, the planner's guide does.
bool better(const ColourReading& one, const ColourReading& other) {
  return told_apart(one, other) ? one.clear.value > other.clear.value : one.guide > other.guide;
}

}  // namespace

bool told_apart(const ColourReading& one, const ColourReading& other) {
  const auto above = [](const Chance& high, const Chance& low) {
    return high.low > low.value && low.high < high.value;
  };
  return above(one.clear, other.clear) || above(other.clear, one.clear);
}

bool PocketReading::narrow() const {
  const std::size_t pace = opening.standing[1] ? 1 : 0;
  const auto& standing = opening.standing[pace];
  const auto& alone = opening.alone[pace];
  return standing && alone && 3 * standing->half_width_rad() < alone->half_width_rad();
}

int BallReading::ways() const {
  return static_cast<int>(
      std::ranges::count_if(pockets, [](const PocketReading& one) { return one.goes(); }));
}

int BallReading::ways_from_here() const {
  return static_cast<int>(std::ranges::count_if(
      pockets, [](const PocketReading& one) { return one.goes() && !one.from_here.not_from; }));
}

const BallReading& Reading::of(int ball) const {
  return *std::ranges::find(balls, ball, &BallReading::ball);
}

std::vector<BallReading> read_balls(const Layout& layout) {
  const engine::Playfield field(layout.table);
  const Position position = position_of(layout);
  return balls_of(field, position, layout, places_of(field, position));
}

Reading read_table(const Layout& layout, const Player& player, std::uint64_t seed) {
  Reading reading{.layout = layout, .player = player, .seed = seed};
  const engine::Playfield field(layout.table);
  const Position position = position_of(layout);
  const std::vector<ToPlay> colours = colours_to_take(layout);
  reading.places = places_of(field, position);
  reading.sights = sights_of(field, position);

  reading.balls = balls_of(field, position, layout, reading.places);
  tbb::parallel_for(std::size_t{0}, reading.balls.size(), [&](std::size_t i) {
    BallReading& ball = reading.balls[i];
    if (!ball.problem) return;
    ball.freed_by = freeing_nudge(field, position, ball.ball, pockets_to_open(ball));
  });

  for (const ToPlay colour : colours) {
    const Task task = task_of(layout, colour);
    reading.on |= balls_on(task, position.present);
  }
  const auto all_on = [&](const auto& test) {
    return std::ranges::all_of(reading.sights, [&](const Sight& sight) {
      return !has(reading.on, sight.ball) || test(sight);
    });
  };
  reading.snookered = all_on([](const Sight& sight) { return sight.hidden(); });
  reading.edges_hidden = all_on(
      [](const Sight& sight) { return !sight.touching && !(sight.left_edge && sight.right_edge); });

  const Scene scene = scene_of(layout, colours.front(), player, field);
  for (OtherWay& way : other_ways(scene, position, reading.on, seed)) {
    BallReading& ball = reading.balls[static_cast<std::size_t>(way.ball) - 1];
    // No plant where the ball goes by itself from here.
    const PocketReading& pocket = ball.pockets[static_cast<std::size_t>(way.pocket)];
    if (pocket.goes() && !pocket.from_here.not_from) continue;
    ball.other_ways.push_back(std::move(way));
  }
  for (BallReading& ball : reading.balls) {
    std::ranges::stable_sort(ball.other_ways, std::ranges::greater{},
                             [](const OtherWay& way) { return way.pot.value; });
  }

  const auto glance = std::make_shared<const Glance>(scene.field, player);
  reading.colours.resize(colours.size());
  tbb::parallel_for(std::size_t{0}, colours.size(), [&](std::size_t i) {
    ColourReading& one = reading.colours[i];
    one = read_colour(scene_of(layout, colours[i], player, scene.field), position, glance,
                      reading.places, seed);
    sort_roles(reading, one, task_of(layout, colours[i]).black);
  });
  std::ranges::stable_sort(reading.colours, better);
  return reading;
}

}  // namespace ahead::coach
