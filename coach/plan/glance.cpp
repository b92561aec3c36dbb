#include "coach/plan/glance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <tbb/parallel_for.h>

#include "coach/access/access.h"
#include "coach/aim/aim.h"
#include "coach/player/scatter.h"
#include "coach/pots/prospect.h"
#include "engine/equipment/symmetry.h"

namespace ahead::coach {
namespace {

using engine::Vec2;

constexpr int grid_columns = 9;
constexpr int grid_rows = 17;
constexpr double medium_pace_mps = 1.5;
/// From a fair place the cue ball has this far to go, and the cut is a half ball's.
constexpr double fair_distance_m = 0.5;
constexpr double fair_cut_rad = std::numbers::pi / 6;
/// Even an easy ball needs the right leave (assumption).
constexpr double easiest = 0.9;
/// A ball that no pocket takes may yet be moved again or doubled (assumption).
constexpr double stuck = 0.08;
/// Cosine of the finest cut that counts, about 78 degrees.
constexpr double finest_cut = 0.2;

/// Spread of the object ball's direction: a turn of the cue ball's line shifts the contact by the
/// distance, the object ball turns by that over two radii, and by more the finer the cut.
double turned_rad(double sigma_rad, double distance_m, double cosine, double radius_m) {
  return sigma_rad * distance_m / (2 * radius_m * cosine);
}

double within(double half_rad, double spread_rad) {
  if (spread_rad <= 0) return half_rad > 0 ? 1 : 0;
  return std::erf(half_rad / (spread_rad * std::numbers::sqrt2));
}

}  // namespace

Glance::Glance(const engine::Playfield& field, const Player& player)
    : columns_(grid_columns), rows_(grid_rows) {
  const engine::Table& table = field.table();
  const double radius_m = table.object_ball.radius_m;
  first_ = {radius_m, radius_m};
  spacing_ = {(table.width_m - 2 * radius_m) / (columns_ - 1),
              (table.length_m - 2 * radius_m) / (rows_ - 1)};
  sigma_rad_ = sigmas(player, {}).direction_rad;
  const auto columns = static_cast<std::size_t>(columns_);
  const auto rows = static_cast<std::size_t>(rows_);
  const std::size_t pockets = table.pockets.size();
  half_widths_.resize(columns * rows * pockets);
  // The mirror image of a place and a pocket has the same gate, mirrored.
  const engine::Symmetry symmetry = engine::symmetry_of(table);
  const std::size_t measured_columns = symmetry.across ? (columns + 1) / 2 : columns;
  const std::size_t measured_rows = symmetry.along ? (rows + 1) / 2 : rows;
  const auto mirrored = [&](Vec2 at, bool across, bool along) {
    return Vec2{across ? table.width_m - at.x : at.x, along ? table.length_m - at.y : at.y};
  };
  const auto pocket_at = [&](Vec2 at) {
    const auto nearest = std::ranges::min_element(
        table.pockets, {},
        [&](const engine::Pocket& one) { return engine::norm(one.centre - at); });
    return static_cast<std::size_t>(nearest - table.pockets.begin());
  };
  const auto index = [&](std::size_t column, std::size_t row, std::size_t pocket) {
    return (row * columns + column) * pockets + pocket;
  };
  const std::size_t measured = measured_columns * measured_rows * pockets;
  tbb::parallel_for(std::size_t{0}, measured, [&](std::size_t i) {
    const std::size_t pocket = i % pockets;
    const std::size_t column = i / pockets % measured_columns;
    const std::size_t row = i / pockets / measured_columns;
    const Vec2 at{first_.x + static_cast<double>(column) * spacing_.x,
                  first_.y + static_cast<double>(row) * spacing_.y};
    const auto gate =
        find_gate(field, at, static_cast<int>(pocket), medium_pace_mps, {}, quick_gate);
    half_widths_[index(column, row, pocket)] = gate ? gate->half_width_rad() : 0;
  });
  for (std::size_t row = 0; row < rows; ++row) {
    for (std::size_t column = 0; column < columns; ++column) {
      const bool across = column >= measured_columns;
      const bool along = row >= measured_rows;
      for (std::size_t pocket = 0; (across || along) && pocket < pockets; ++pocket) {
        half_widths_[index(column, row, pocket)] =
            half_widths_[index(across ? columns - 1 - column : column, along ? rows - 1 - row : row,
                               pocket_at(mirrored(table.pockets[pocket].centre, across, along)))];
      }
    }
  }
}

double Glance::half_width_rad(Vec2 at, std::size_t pocket) const {
  const auto split = [](double where, int count) {
    const double clamped = std::clamp(where, 0.0, static_cast<double>(count - 1));
    const int low = std::min(static_cast<int>(clamped), count - 2);
    return std::pair{static_cast<std::size_t>(low), clamped - low};
  };
  const auto [column, across] = split((at.x - first_.x) / spacing_.x, columns_);
  const auto [row, along] = split((at.y - first_.y) / spacing_.y, rows_);
  const std::size_t pockets = half_widths_.size() / static_cast<std::size_t>(columns_ * rows_);
  const auto width = [&, left = column, low = row](std::size_t dx, std::size_t dy) {
    return half_widths_[((low + dy) * grid_columns + left + dx) * pockets + pocket];
  };
  return std::lerp(std::lerp(width(0, 0), width(1, 0), across),
                   std::lerp(width(0, 1), width(1, 1), across), along);
}

double Glance::ease(const Scene& scene, const Position& position, int ball) const {
  const engine::Table& table = scene.field.table();
  const Vec2 from = position.at[static_cast<std::size_t>(ball)];
  const BallSet ignored = bit(ball) | passing_blockers(scene.task, ball);
  const double spread_rad =
      turned_rad(sigma_rad_, fair_distance_m, std::cos(fair_cut_rad), table.object_ball.radius_m);
  double best = stuck;
  for (std::size_t pocket = 0; pocket < table.pockets.size(); ++pocket) {
    const double goes = easiest * within(half_width_rad(from, pocket), spread_rad);
    if (goes <= best) continue;
    if (in_the_way(scene, position, from, table.pockets[pocket].centre, table.object_ball.radius_m,
                   ignored) == 0) {
      best = goes;
    }
  }
  return best;
}

/// A pot in a straight line from where the cue ball lies.
struct Glance::Line {
  double goes = 0;  ///< chance, in easy reach
  double half_rad = 0;
  double spread_rad = 0;
  double aim_rad = 0;
};

Glance::Line Glance::line_along(const Scene& scene, const Position& position, int ball, Vec2 along,
                                double half_rad) const {
  const engine::Table& table = scene.field.table();
  const Vec2 object = position.at[static_cast<std::size_t>(ball)];
  const Vec2 ghost = ghost_ball(table, object, object + along);
  const Vec2 line = ghost - position.at[0];
  const double distance_m = engine::norm(line);
  const double cosine = engine::dot(line, along) / std::max(distance_m, 1e-9);
  if (cosine < finest_cut) return {};
  const double spread_rad = turned_rad(sigma_rad_, distance_m, cosine, table.object_ball.radius_m);
  const double goes = within(half_rad, spread_rad);
  if (goes < hopeless_pot ||
      in_the_way(scene, position, position.at[0], ghost, table.cue_ball.radius_m, bit(ball)) != 0) {
    return {};
  }
  return {.goes = goes,
          .half_rad = half_rad,
          .spread_rad = spread_rad,
          .aim_rad = engine::angle_rad(line)};
}

double Glance::best_pot(const Scene& scene, const Position& position, BallSet on,
                        std::span<const Way> ways, BallSet shifted) const {
  const engine::Table& table = scene.field.table();
  std::array<Line, 32> lines;
  std::size_t count = 0;
  const auto keep = [&](const Line& line) {
    if (line.goes > 0 && count < lines.size()) lines[count++] = line;
  };
  for (const Way& way : ways) {
    if (!has(on & ~shifted, way.ball) || (way.blockers & position.present) != 0) continue;
    const auto gate = gate_at(way.gates, medium_pace_mps);
    if (!gate) continue;
    keep(line_along(scene, position, way.ball, engine::direction(gate->middle_rad()),
                    gate->half_width_rad()));
  }
  for (int ball = 1; (on & shifted) != 0 && ball < static_cast<int>(position.at.size()); ++ball) {
    if (!has(on & shifted, ball)) continue;
    const Vec2 from = position.at[static_cast<std::size_t>(ball)];
    for (std::size_t pocket = 0; pocket < table.pockets.size(); ++pocket) {
      const double half_rad = half_width_rad(from, pocket);
      const Vec2 hole = table.pockets[pocket].centre;
      if (half_rad <= 0 ||
          in_the_way(scene, position, from, hole, table.object_ball.radius_m, bit(ball)) != 0) {
        continue;
      }
      keep(line_along(scene, position, ball, engine::unit(hole - from), half_rad));
    }
  }
  const std::span found(lines.data(), count);
  std::ranges::sort(found, std::ranges::greater{}, &Line::goes);
  double best = 0;
  for (const Line& line : found) {
    if (line.goes <= best) break;
    const Access reached =
        access(scene, position, {.aim_rad = line.aim_rad, .height = 0.2, .cue_speed_mps = 1});
    if (!recommended(reached)) continue;
    best = std::max(best, within(line.half_rad, line.spread_rad * reached.error_factor));
  }
  return best;
}

}  // namespace ahead::coach
