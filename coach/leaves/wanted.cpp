#include "coach/leaves/wanted.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

#include <tbb/parallel_for.h>

#include "coach/access/access.h"
#include "coach/pots/pot_chance.h"
#include "coach/pots/prospect.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

/// A place every 40 mm or so on a 7 ft table.
constexpr int grid_columns = 24;
constexpr int grid_rows = 46;
/// The next pot is played in one of these ways, whichever is surest: plain at three paces.
constexpr std::array next_speeds_mps{0.8, 1.3, 2.0};

double next_chance(const Scene& scene, const Position& position, const Way& way) {
  const engine::Table& table = scene.field.table();
  const Vec2 object = position.at[static_cast<std::size_t>(way.ball)];
  double best = 0;
  for (const double speed_mps : next_speeds_mps) {
    const engine::Strike plain{.cue_speed_mps = speed_mps};
    auto aimed = aim_through(table, position.at[0], object, way.gates, plain);
    if (!aimed) continue;
    const Access access = coach::access(scene, position, aimed->aim.strike);
    if (!recommended(access)) continue;
    best = std::max(best, pot_chance(scene, position, way, aimed->aim, access.error_factor));
  }
  return best;
}

double off_segment_m(Vec2 from, Vec2 to, Vec2 place) {
  const Vec2 line = to - from;
  const double square = engine::dot(line, line);
  const double share =
      square > 0 ? std::clamp(engine::dot(place - from, line) / square, 0.0, 1.0) : 0.0;
  return engine::norm(from + share * line - place);
}

}  // namespace

bool inside(const Region& region, Vec2 place) {
  bool within = false;
  const auto& corners = region.outline;
  for (std::size_t i = 0, j = corners.size() - 1; i < corners.size(); j = i++) {
    const Vec2 a = corners[i];
    const Vec2 b = corners[j];
    if ((a.y > place.y) == (b.y > place.y)) continue;
    if (place.x < a.x + (b.x - a.x) * (place.y - a.y) / (b.y - a.y)) within = !within;
  }
  return within;
}

Worth::Worth(const Scene& scene, const Position& position, int potted, Wanted wanted)
    : wanted_(std::move(wanted)) {
  if (const auto* next = std::get_if<NextPot>(&wanted_)) {
    find_chances(scene, position, potted, *next);
  }
}

void Worth::find_chances(const Scene& scene, const Position& position, int potted, NextPot next) {
  const engine::Table& table = scene.field.table();
  columns_ = grid_columns;
  rows_ = grid_rows;
  first_ = {table.cue_ball.radius_m, table.cue_ball.radius_m};
  spacing_ = {(table.width_m - 2 * first_.x) / (columns_ - 1),
              (table.length_m - 2 * first_.y) / (rows_ - 1)};
  chances_.assign(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_), 0);

  Position later = position;
  later.present &= ~bit(potted);
  const auto ways = ways_of(scene, later, next.ball);
  const auto way = std::ranges::find(ways, next.pocket, &Way::pocket);
  if (way == ways.end() || (way->blockers & later.present) != 0) return;
  const Vec2 object = later.at[static_cast<std::size_t>(next.ball)];
  const Vec2 line = engine::direction(way->gates.middle_rad());
  const Vec2 ghost = ghost_ball(table, object, object + line);
  tbb::parallel_for(std::size_t{0}, chances_.size(), [&](std::size_t i) {
    Position from = later;
    from.at[0] = {
        first_.x + static_cast<double>(i % static_cast<std::size_t>(columns_)) * spacing_.x,
        first_.y + static_cast<double>(i / static_cast<std::size_t>(columns_)) * spacing_.y};
    if (engine::dot(line, ghost - from.at[0]) <= 0) return;
    if (in_the_way(scene, from, from.at[0], ghost, table.cue_ball.radius_m, bit(next.ball)) != 0) {
      return;
    }
    chances_[i] = next_chance(scene, from, *way);
  });
}

double Worth::chance_at(Vec2 place) const {
  const auto split = [](double at, int count) {
    const double clamped = std::clamp(at, 0.0, static_cast<double>(count - 1));
    const int low = std::min(static_cast<int>(clamped), count - 2);
    return std::pair{static_cast<std::size_t>(low), clamped - low};
  };
  const auto [column, across] = split((place.x - first_.x) / spacing_.x, columns_);
  const auto [row, along] = split((place.y - first_.y) / spacing_.y, rows_);
  const auto width = static_cast<std::size_t>(columns_);
  const double* corner = &chances_[row * width + column];
  return std::lerp(std::lerp(corner[0], corner[1], across),
                   std::lerp(corner[width], corner[width + 1], across), along);
}

double Worth::operator()(Vec2 place) const {
  return std::holds_alternative<NextPot>(wanted_) ? chance_at(place)
                                                  : (off_m(place) > 0 ? 0.0 : 1.0);
}

double Worth::off_m(Vec2 place) const {
  if (const auto* leave = std::get_if<Leave>(&wanted_)) {
    return std::max(0.0, engine::norm(place - leave->at) - leave->radius_m);
  }
  const auto* region = std::get_if<Region>(&wanted_);
  if (region == nullptr || inside(*region, place)) return 0;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < region->outline.size(); ++i) {
    least =
        std::min(least, off_segment_m(region->outline[i],
                                      region->outline[(i + 1) % region->outline.size()], place));
  }
  return least;
}

}  // namespace ahead::coach
