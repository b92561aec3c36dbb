#include "engine/equipment/jaws.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace ahead::engine {
namespace {

/// Where a pocket sits: `corner` is the point where the nose lines cross (corner pocket) or the
/// point of the nose line opposite the pocket (middle), `out` its axis away from the bed.
struct Seat {
  PocketName name{};
  Vec2 corner;
  Vec2 out;
  /// The two rails that end here: directions away from the pocket, and into the bed.
  struct Side {
    Vec2 away;
    Vec2 inward;
  };
  std::array<Side, 2> sides;
};

constexpr Vec2 left{-1, 0};
constexpr Vec2 right{1, 0};
constexpr Vec2 up{0, 1};
constexpr Vec2 down{0, -1};

std::array<Seat, 6> seats(double width_m, double length_m) {
  const double half = length_m / 2;
  using enum PocketName;
  return {{
      {bottom_left, {0, 0}, unit(left + down), {{{right, up}, {up, right}}}},
      {bottom_right, {width_m, 0}, unit(right + down), {{{left, up}, {up, left}}}},
      {middle_left, {0, half}, left, {{{down, right}, {up, right}}}},
      {middle_right, {width_m, half}, right, {{{down, left}, {up, left}}}},
      {top_left, {0, length_m}, unit(left + up), {{{right, down}, {down, right}}}},
      {top_right, {width_m, length_m}, unit(right + up), {{{left, down}, {down, left}}}},
  }};
}

bool is_middle(PocketName name) {
  return name == PocketName::middle_left || name == PocketName::middle_right;
}

/// The shorter arc about `centre` from one point to the other, written counter-clockwise.
RailArc arc_between(Vec2 centre, Vec2 one, Vec2 other) {
  const bool ccw = cross(one - centre, other - centre) > 0;
  return {centre, norm(one - centre), angle_rad((ccw ? one : other) - centre),
          angle_rad((ccw ? other : one) - centre)};
}

/// The straight noses between the pockets: from where a pocket's rail begins to where the next
/// pocket's rail begins.
struct NoseEnd {
  Vec2 at;
  Vec2 away;
};

/// Joins each end with the nearest one that faces it on the same line: beyond that lies a pocket.
void join(std::vector<Rail>& rails, const std::vector<NoseEnd>& ends) {
  for (std::size_t i = 0; i < ends.size(); ++i) {
    std::size_t nearest = i;
    double nearest_m = std::numeric_limits<double>::infinity();
    for (std::size_t j = 0; j < ends.size(); ++j) {
      const Vec2 between = ends[j].at - ends[i].at;
      const double ahead_m = dot(between, ends[i].away);
      const bool facing = dot(ends[i].away, ends[j].away) < -0.5 &&
                          std::abs(cross(between, ends[i].away)) < 1e-9 && ahead_m > 0;
      if (facing && ahead_m < nearest_m) {
        nearest = j;
        nearest_m = ahead_m;
      }
    }
    if (nearest > i) rails.emplace_back(RailSegment{ends[i].at, ends[nearest].at});
  }
}

/// Adds the noses first, then the jaws, so that a reader of the file finds the cushions on top.
Outline finish(const std::vector<NoseEnd>& ends, const std::vector<Rail>& jaws,
               std::vector<Pocket> pockets) {
  Outline outline{.rails = {}, .pockets = std::move(pockets)};
  join(outline.rails, ends);
  outline.rails.insert(outline.rails.end(), jaws.begin(), jaws.end());
  return outline;
}

}  // namespace

Outline rounded_outline(double width_m, double length_m, const RoundedJaws& jaws) {
  std::vector<NoseEnd> ends;
  std::vector<Rail> pieces;
  std::vector<Pocket> pockets;
  for (const Seat& seat : seats(width_m, length_m)) {
    const bool middle = is_middle(seat.name);
    const double width = middle ? jaws.middle_width_at_fall_m : jaws.corner_width_at_fall_m;
    const double radius = middle ? jaws.middle_radius_m : jaws.corner_radius_m;
    const double s = middle ? width / 2 + radius
                            : width / std::numbers::sqrt2 + radius * std::tan(std::numbers::pi / 8);
    const double fall_depth = width / 2;
    for (const Seat::Side& side : seat.sides) {
      const Vec2 end = seat.corner + s * side.away;
      const Vec2 centre = end - radius * side.inward;
      const Vec2 to_axis = unit(-side.away - dot(-side.away, seat.out) * seat.out);
      const Vec2 wall = centre + radius * to_axis;
      ends.push_back({end, side.away});
      pieces.emplace_back(arc_between(centre, end, wall));
      const double wall_length = fall_depth - dot(wall - seat.corner, seat.out);
      if (wall_length > 0) pieces.emplace_back(RailSegment{wall, wall + wall_length * seat.out});
    }
    pockets.push_back({seat.name, seat.corner + fall_depth * seat.out, fall_depth});
  }
  return finish(ends, pieces, std::move(pockets));
}

Outline straight_outline(double width_m, double length_m, const StraightJaws& jaws) {
  std::vector<NoseEnd> ends;
  std::vector<Rail> pieces;
  std::vector<Pocket> pockets;
  for (const Seat& seat : seats(width_m, length_m)) {
    const bool middle = is_middle(seat.name);
    const double mouth = middle ? jaws.middle_mouth_m : jaws.corner_mouth_m;
    const double shelf = middle ? jaws.middle_shelf_m : jaws.corner_shelf_m;
    const double closing = middle ? jaws.middle_closing_rad : jaws.corner_closing_rad;
    const double s = middle ? mouth / 2 : mouth / std::numbers::sqrt2;
    const double mouth_depth = middle ? 0 : -mouth / 2;
    const double fall_radius = mouth / 2 - shelf * std::tan(closing);
    for (const Seat::Side& side : seat.sides) {
      const Vec2 tip = seat.corner + s * side.away;
      const Vec2 to_axis = unit(-side.away - dot(-side.away, seat.out) * seat.out);
      const Vec2 facing = std::cos(closing) * seat.out + std::sin(closing) * to_axis;
      const double length = (shelf + fall_radius) / std::cos(closing);
      ends.push_back({tip, side.away});
      pieces.emplace_back(RailSegment{tip, tip + length * facing});
    }
    const double centre_depth = mouth_depth + shelf + fall_radius;
    pockets.push_back({seat.name, seat.corner + centre_depth * seat.out, fall_radius});
  }
  return finish(ends, pieces, std::move(pockets));
}

}  // namespace ahead::engine
