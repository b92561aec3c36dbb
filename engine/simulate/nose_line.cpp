#include "engine/simulate/nose_line.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace ahead::engine {
namespace {

constexpr double turn = 2 * std::numbers::pi;

/// One end of a piece: where it is, and the line that the piece lies along there (sense ignored).
struct End {
  Vec2 at;
  Vec2 along;
};

double ccw_from(double from_rad, double to_rad) {
  const double sweep = std::fmod(to_rad - from_rad, turn);
  return sweep <= 0 ? sweep + turn : sweep;
}

/// Ends that meet no neighbour smoothly: there the ball meets a point.
std::vector<Vec2> sharp_ends(const std::vector<End>& ends) {
  constexpr double same_place_m = 1e-6;
  constexpr double same_line = 1e-4;
  std::vector<Vec2> corners;
  for (std::size_t i = 0; i < ends.size(); ++i) {
    bool smooth = false;
    bool counted = false;
    for (std::size_t j = 0; j < ends.size(); ++j) {
      if (i == j || norm(ends[i].at - ends[j].at) > same_place_m) continue;
      smooth = smooth || std::abs(cross(ends[i].along, ends[j].along)) < same_line;
      counted = counted || j < i;
    }
    if (!smooth && !counted) corners.push_back(ends[i].at);
  }
  return corners;
}

NoseArc nose_arc(const RailArc& rail) {
  NoseArc arc{.centre = rail.centre,
              .radius_m = rail.radius_m,
              .from = direction(rail.from_rad),
              .to = direction(rail.to_rad),
              .beyond_half = ccw_from(rail.from_rad, rail.to_rad) > std::numbers::pi};
  const auto at = [&](Vec2 out) { return arc.centre + arc.radius_m * out; };
  arc.box = box_of(at(arc.from), at(arc.to));
  for (const Vec2 out : {Vec2{1, 0}, Vec2{0, 1}, Vec2{-1, 0}, Vec2{0, -1}}) {
    if (arc.covers(out)) arc.box = with(arc.box, at(out));
  }
  return arc;
}

Vec2 nearest_on(const NoseSegment& segment, Vec2 p) {
  const double s = std::clamp(dot(p - segment.from, segment.along), 0.0, segment.length_m);
  return segment.from + s * segment.along;
}

}  // namespace

bool NoseArc::covers(Vec2 from_centre) const {
  const double slack = 1e-12 * norm(from_centre);
  const bool after_from = cross(from, from_centre) >= -slack;
  const bool before_to = cross(from_centre, to) >= -slack;
  return beyond_half ? after_from || before_to : after_from && before_to;
}

NoseLine nose_line(const std::vector<Rail>& rails) {
  NoseLine nose;
  std::vector<End> ends;
  for (const Rail& rail : rails) {
    if (const auto* segment = std::get_if<RailSegment>(&rail)) {
      const Vec2 along = unit(segment->to - segment->from);
      nose.segments.push_back({segment->from, along, norm(segment->to - segment->from),
                               box_of(segment->from, segment->to)});
      ends.push_back({segment->from, along});
      ends.push_back({segment->to, along});
    } else {
      const auto& arc = std::get<RailArc>(rail);
      nose.arcs.push_back(nose_arc(arc));
      for (const double at_rad : {arc.from_rad, arc.to_rad}) {
        const Vec2 out = direction(at_rad);
        ends.push_back({arc.centre + arc.radius_m * out, left_of(out)});
      }
    }
  }
  nose.corners = sharp_ends(ends);
  return nose;
}

Vec2 nearest_on(const NoseLine& nose, Vec2 p) {
  Vec2 nearest;
  double least = std::numeric_limits<double>::infinity();
  const auto weigh = [&](Vec2 q) {
    const double distance = norm(q - p);
    if (distance < least) {
      least = distance;
      nearest = q;
    }
  };
  for (const NoseSegment& segment : nose.segments) weigh(nearest_on(segment, p));
  for (const Vec2 corner : nose.corners) weigh(corner);
  for (const NoseArc& arc : nose.arcs) {
    const Vec2 out = p - arc.centre;
    if (norm(out) > 0 && arc.covers(out)) weigh(arc.centre + arc.radius_m * unit(out));
  }
  return nearest;
}

}  // namespace ahead::engine
