#include "coach/read/region.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "coach/aim/aim.h"
#include "tests/coach/scene_of_balls.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

constexpr int top_right = 5;

struct Read {
  engine::Playfield field;
  Position position;
  Places places;
  Opening opening;
  std::vector<bool> region;
};

Read read_of(const Layout& layout, int pocket) {
  Read read{.field = engine::Playfield(layout.table), .position = position_of(layout)};
  read.places = places_of(read.field, read.position);
  read.opening = openings_of(read.field, read.position, 1)[static_cast<std::size_t>(pocket)];
  read.region = region_of(read.field, read.position, 1, read.opening, read.places);
  return read;
}

/// Whether a plain strike from `cue`, aimed by the engine's own contact, pots the ball.
bool pots_from(const Read& read, Vec2 cue, int pocket) {
  const Vec2 object = read.position.at[1];
  const auto aim =
      aim_at(read.field.table(), cue, object,
             object + engine::direction(read.opening.gate().middle_rad()), {.cue_speed_mps = 2.4});
  if (!aim) return false;
  Position position = read.position;
  position.at[0] = cue;
  const engine::Shot shot = play(read.field, position, aim->strike).shot;
  const auto meeting =
      std::ranges::find(shot.events, engine::EventKind::ball_ball, &engine::Event::kind);
  // Not by way of another ball.
  return meeting != shot.events.end() && meeting->other == 1 && shot.endings[1].pocket == pocket;
}

/// Whether the cue ball's way from `cue` to the ghost passes another ball by less than 4 mm, or
/// meets it by less.
bool grazes(const Read& read, const PotLine& line, Vec2 cue) {
  const engine::Table& table = read.field.table();
  const double touching_m = 2 * std::sqrt(table.cue_ball.radius_m * table.object_ball.radius_m);
  const Vec2 along = engine::unit(line.ghost - cue);
  return std::ranges::any_of(read.position.at.begin() + 2, read.position.at.end(), [&](Vec2 other) {
    return std::abs(std::abs(engine::cross(along, other - cue)) - touching_m) < 0.004;
  });
}

// The map is geometry; the engine says whether it is true. Places whose cut is near the limit, or
// that pass a ball by a hair, are left out: there throw and pace decide.
TEST(ARegion, HoldsWhatTheEnginePots) {
  const Layout layout = test::layout_of({{"cue", {100, 100}},
                                         {"red-1", {600, 1300}},
                                         {"yellow-1", {430, 1000}},
                                         {"yellow-2", {560, 800}}});
  const Read read = read_of(layout, top_right);
  const PotLine line = pot_line(read.field, read.position, 1, read.opening.gate());
  int inside = 0;
  int outside = 0;
  for (std::size_t i = 0; i < read.places.size(); ++i) {
    if (!read.places.free[i]) continue;
    const LineUp line_up =
        coach::line_up(read.field.table(), read.position, line, read.places.at(i));
    if (line_up.cut_rad > 1.0) continue;
    if (grazes(read, line, read.places.at(i))) continue;
    if (read.region[i]) {
      ++inside;
      EXPECT_TRUE(pots_from(read, read.places.at(i), top_right)) << i;
    } else {
      ++outside;
      EXPECT_FALSE(pots_from(read, read.places.at(i), top_right)) << i;
    }
  }
  EXPECT_GT(inside, 100);
  EXPECT_GT(outside, 20);
}

TEST(ARegion, EndsAtTheFinestCut) {
  const Read read =
      read_of(test::layout_of({{"cue", {100, 100}}, {"red-1", {600, 1300}}}), top_right);
  const PotLine line = pot_line(read.field, read.position, 1, read.opening.gate());
  const auto from = [&](double cut_rad) {
    const Vec2 cue = line.ghost - 0.4 * engine::direction(engine::angle_rad(line.along) + cut_rad);
    return line_up(read.field.table(), read.position, line, cue).not_from;
  };

  EXPECT_FALSE(from(finest_cut_rad - 0.01));
  EXPECT_EQ(from(finest_cut_rad + 0.01), NotFrom::cut);
  EXPECT_EQ(from(std::numbers::pi), NotFrom::cut);
}

TEST(ARegion, IsEmptyWhereABallTakesTheGhostsPlace) {
  const Layout alone = test::layout_of({{"cue", {100, 100}}, {"red-1", {600, 1300}}});
  const Read first = read_of(alone, top_right);
  const Vec2 ghost = pot_line(first.field, first.position, 1, first.opening.gate()).ghost;
  Layout layout = alone;
  layout.balls.push_back({.id = "yellow-1", .colour = Colour::yellow, .at = ghost});

  const Read read = read_of(layout, top_right);

  EXPECT_TRUE(read.opening.goes());
  EXPECT_EQ(share_of(read.region, read.places), 0);
}

}  // namespace
}  // namespace ahead::coach
