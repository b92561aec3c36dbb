#include "lesson/figure/ribbon.h"

#include <algorithm>
#include <cmath>
#include <ranges>

#include <fmt/format.h>

namespace ahead::lesson {
namespace {

using engine::Phase;

/// A ball at 4 m/s moves 60 mm between samples, and only slides and swerves are curved.
constexpr double sample_s = 0.015;

PathPoint point_of(const engine::Stretch& stretch, const engine::Table& table, const View& view,
                   double t_s) {
  const engine::BallState state = engine::state_at(stretch, table, t_s);
  const engine::Vec2 velocity = engine::plan(state.velocity);
  const engine::Vec2 along = engine::unit(velocity);
  return {.t_s = t_s,
          .at = view.at(state.position),
          .along = {along.x, -along.y},
          .speed_mps = engine::norm(velocity)};
}

bool moves(Phase phase) {
  return phase == Phase::rolling || phase == Phase::sliding || phase == Phase::airborne;
}

/// Both edges of the ribbon, as one outline.
std::vector<Point> edges(const DrawnStretch& stretch, const formats::RibbonLook& look) {
  std::vector<Point> outline;
  const auto edge = [&look](const PathPoint& p, double side) {
    return p.at + side * ribbon_width(p.speed_mps, look) / 2 * engine::left_of(p.along);
  };
  for (const PathPoint& p : stretch.points) outline.push_back(edge(p, 1));
  for (const PathPoint& p : stretch.points | std::views::reverse) outline.push_back(edge(p, -1));
  return outline;
}

std::string flight_dots(const DrawnStretch& stretch, const formats::RibbonLook& look) {
  std::string marks;
  const PathPoint* last = nullptr;
  for (const PathPoint& p : stretch.points) {
    const double width = ribbon_width(p.speed_mps, look);
    if (last != nullptr && engine::norm(p.at - last->at) < 1.4 * width) continue;
    marks += circle(p.at, width / 2, "flying");
    last = &p;
  }
  return marks;
}

std::string body(const DrawnStretch& stretch, const formats::RibbonLook& look) {
  if (stretch.phase == Phase::airborne) return flight_dots(stretch, look);
  return path(closed_outline(edges(stretch, look)),
              stretch.phase == Phase::sliding ? "sliding" : "rolling");
}

PathPoint between(const PathPoint& a, const PathPoint& b, double t_s) {
  const double f = b.t_s > a.t_s ? (t_s - a.t_s) / (b.t_s - a.t_s) : 0;
  return {.t_s = t_s,
          .at = a.at + f * (b.at - a.at),
          .along = a.along,
          .speed_mps = a.speed_mps + f * (b.speed_mps - a.speed_mps)};
}

std::string ticks(const DrawnStretch& stretch, const formats::RibbonLook& look) {
  constexpr double beyond = 7;  // how far a tick stands out of the ribbon on each side
  std::string marks;
  for (std::size_t i = 1; i < stretch.points.size(); ++i) {
    const PathPoint& a = stretch.points[i - 1];
    const PathPoint& b = stretch.points[i];
    const double tick_s = std::ceil(a.t_s / look.tick_every_s) * look.tick_every_s;
    if (tick_s <= 0 || tick_s >= b.t_s) continue;
    const PathPoint p = between(a, b, tick_s);
    const Point half = (ribbon_width(p.speed_mps, look) / 2 + beyond) * engine::left_of(p.along);
    marks += line(p.at - half, p.at + half, "tick");
  }
  return marks;
}

}  // namespace

std::vector<DrawnStretch> drawn_stretches(std::span<const engine::Stretch> path,
                                          const engine::Table& table, const View& view) {
  std::vector<DrawnStretch> drawn;
  for (const engine::Stretch& stretch : path) {
    const double duration_s = stretch.t1_s - stretch.t0_s;
    if (!moves(stretch.phase) || duration_s <= 0) continue;
    const int steps = std::max(1, static_cast<int>(std::ceil(duration_s / sample_s)));
    DrawnStretch points{.phase = stretch.phase};
    for (int i = 0; i <= steps; ++i) {
      const double t_s = i == steps ? stretch.t1_s : stretch.t0_s + duration_s * i / steps;
      points.points.push_back(point_of(stretch, table, view, t_s));
    }
    // A ball at rest has no direction: it keeps the one that it had.
    for (std::size_t i = 1; i < points.points.size(); ++i) {
      if (points.points[i].speed_mps == 0) points.points[i].along = points.points[i - 1].along;
    }
    drawn.push_back(std::move(points));
  }
  return drawn;
}

double ribbon_width(double speed_mps, const formats::RibbonLook& look) {
  return std::min(look.most_mm, look.least_mm + look.per_mps_mm * speed_mps);
}

std::string ribbon_mark(std::span<const DrawnStretch> path, const formats::RibbonLook& look,
                        std::string_view css_class) {
  std::string bodies;
  std::string across;
  for (const DrawnStretch& stretch : path) {
    bodies += body(stretch, look);
    across += ticks(stretch, look);
  }
  return group(fmt::format("ribbon {}", css_class), bodies + across);
}

}  // namespace ahead::lesson
