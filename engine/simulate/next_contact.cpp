#include "engine/simulate/next_contact.h"

#include <algorithm>
#include <cmath>

#include "engine/contact/ball_ball.h"
#include "engine/geometry/roots.h"

namespace ahead::engine {
namespace {

/// |p + v t + h t^2|^2 as a polynomial in t.
Polynomial squared(Vec3 p, Vec3 v, Vec3 h) {
  return {dot(p, p), 2 * dot(p, v), dot(v, v) + 2 * dot(p, h), 2 * dot(v, h), dot(h, h)};
}

/// The contact distance to ask for: a contact that is touched and barely closes may sink first.
double asked(double distance_m, double now_m, double closing_mps) {
  constexpr double touching_m = 1e-9;
  const bool touching = now_m <= distance_m + touching_m;
  return touching && closing_mps < dead_contact_mps ? std::min(now_m, distance_m) - sink_m
                                                    : distance_m;
}

double first_time(const Polynomial& gap, double t_max) {
  return first_closing(gap, t_max).value_or(never);
}

/// A straight path into the circle of radius `radius_m` about `centre`, from outside.
double ray_to_circle(const Path& path, Vec2 centre, double radius_m) {
  const Vec2 to = centre - plan(path.p);
  const double ahead = dot(to, path.along);
  if (ahead <= 0) return never;
  const double beside = cross(to, path.along);
  if (std::abs(beside) > radius_m) return never;
  const double now_m = norm(to);
  // From rest the push decides; sinking applies then.
  const double wanted = asked(radius_m, now_m, path.speed_mps * ahead / now_m);
  const double outside = (now_m - wanted) * (now_m + wanted);
  if (outside <= 0) return 0;
  const double discriminant = ahead * ahead - outside;
  if (discriminant < 0) return never;
  const double distance_m = outside / (ahead + std::sqrt(discriminant));
  return distance_m <= path.reach_m ? time_of(path, distance_m) : never;
}

/// Plan distance to a fixed point falls to `radius_m`, from outside.
double time_to_circle(const Path& path, Vec2 centre, double radius_m) {
  if (path.straight) return ray_to_circle(path, centre, radius_m);
  const Vec3 from = lift(plan(path.p) - centre);
  const Vec3 v = lift(plan(path.v));
  const double now_m = norm(from);
  if (now_m - radius_m > path.longest_way_m) return never;
  const double closing = now_m > 0 ? -dot(from, v) / now_m : 0;
  const double wanted = asked(radius_m, now_m, closing);
  Polynomial gap = squared(from, v, lift(plan(path.half_a)));
  gap[0] = (now_m - wanted) * (now_m + wanted);
  return first_time(gap, path.duration_s);
}

/// Plan distance to a fixed point rises to `radius_m`, from inside: an arc met from its hollow
/// side.
double time_to_hollow(const Path& path, Vec2 centre, double radius_m) {
  const Vec3 from = lift(plan(path.p) - centre);
  Polynomial gap = squared(from, lift(plan(path.v)), lift(plan(path.half_a)));
  for (double& c : gap) c = -c;
  gap[0] = radius_m * radius_m + gap[0];
  return first_time(gap, path.duration_s);
}

/// A straight path and a straight piece, met on the side to which `away` points from it.
double ray_to_side(const Path& path, const NoseSegment& segment, Vec2 away, double reach_m) {
  const double nearing = -dot(path.along, away);
  if (nearing <= 0) return never;
  const Vec2 from = plan(path.p) - segment.from;
  const double distance = dot(from, away);
  const double s = dot(from, segment.along);
  const bool beside = s >= 0 && s <= segment.length_m;
  const double gap =
      distance - (beside ? asked(reach_m, distance, path.speed_mps * nearing) : reach_m);
  if (gap <= 0) return beside ? 0 : never;
  const double way_m = gap / nearing;
  if (way_m > path.reach_m) return never;
  const double at = s + way_m * dot(path.along, segment.along);
  return at >= 0 && at <= segment.length_m ? time_of(path, way_m) : never;
}

/// A straight piece, met on the side to which `away` points from it.
double time_to_side(const Path& path, const NoseSegment& segment, Vec2 away, double reach_m) {
  const Vec2 from = plan(path.p) - segment.from;
  const double distance = dot(from, away);
  const double s = dot(from, segment.along);
  const bool beside = s >= 0 && s <= segment.length_m;
  const double closing = -dot(plan(path.v), away);
  const double wanted = beside ? asked(reach_m, distance, closing) : reach_m;
  const Polynomial gap{distance - wanted, -closing, dot(plan(path.half_a), away), 0, 0};
  // Inside the reach of the line's extension but not beside the piece, and closing: its end is met,
  // not the line. If it opens first, a curved path may still come back to the piece.
  if (!beside && gap[0] <= 0 && gap[1] < 0) return never;
  const double t = first_time(gap, path.duration_s);
  if (t == never) return never;
  const double at = dot(from + t * (plan(path.v) + t * plan(path.half_a)), segment.along);
  return at >= 0 && at <= segment.length_m ? t : never;
}

/// A straight piece. A curved path that begins beyond its ends may cross the line's extension and
/// come back, and so meet the piece from the side where the ball is not yet.
double time_to_line(const Path& path, const NoseSegment& segment, double reach_m) {
  const Vec2 from = plan(path.p) - segment.from;
  const Vec2 left = left_of(segment.along);
  const Vec2 away = dot(from, left) < 0 ? -left : left;
  if (path.straight) return ray_to_side(path, segment, away, reach_m);
  const double near_s = time_to_side(path, segment, away, reach_m);
  const double s = dot(from, segment.along);
  if (s >= 0 && s <= segment.length_m) return near_s;
  return std::min(near_s, time_to_side(path, segment, -away, reach_m));
}

double time_to_arc(const Path& path, const NoseArc& arc, double reach_m) {
  const Vec2 from = plan(path.p) - arc.centre;
  const bool outside = norm(from) > arc.radius_m;
  if (!outside && arc.radius_m <= reach_m) return never;
  const double t = outside ? time_to_circle(path, arc.centre, arc.radius_m + reach_m)
                           : time_to_hollow(path, arc.centre, arc.radius_m - reach_m);
  if (t == never) return never;
  return arc.covers(from + t * (plan(path.v) + t * plan(path.half_a))) ? t : never;
}

/// Whether two balls stay apart along the line that joins them now; they are never nearer than
/// along it. Their distance there is now + rate t + bend t^2.
bool stays_apart(double now_m, double rate, double bend, double t_max, double distance_m) {
  const double at_end_m = now_m + t_max * (rate + t_max * bend);
  if (rate > 0) return bend >= 0 || at_end_m >= distance_m;
  const bool turns = bend > 0 && -rate < 2 * bend * t_max;
  const double least_m = turns ? now_m - rate * rate / (4 * bend) : at_end_m;
  return std::min(least_m, now_m) > distance_m;
}

Vec3 position_at(const Path& path, double t) { return path.p + t * (path.v + t * path.half_a); }

/// An airborne ball and the nose in space: steps no longer than the gap allows, since no gap closes
/// faster than the ball moves; the last one, if it was a shortest step, is halved back to contact.
NoseContact airborne_nose(const Path& path, const NoseLine& nose, double nose_height_m,
                          double radius_m) {
  const double top_speed = norm(path.v) + 2 * norm(path.half_a) * path.duration_s;
  constexpr double shortest_s = 1e-6;
  constexpr double touching_m = 1e-8;
  const auto to_nose = [&](double t) {
    const Vec3 at = position_at(path, t);
    return lift(nearest_on(nose, plan(at)), nose_height_m) - at;
  };
  // A ball that begins inside the nose has no moment of contact: it meets it when it closes.
  double open_s = norm(to_nose(0)) - radius_m < touching_m ? never : 0;
  double t = 0;
  while (t <= path.duration_s) {
    const Vec3 to = to_nose(t);
    const double gap = norm(to) - radius_m;
    const Vec3 v = path.v + 2 * t * path.half_a;
    if (gap < touching_m && dot(v, to) > dead_contact_mps * norm(to)) {
      for (int i = 0; i < 40 && norm(to_nose(t)) - radius_m < -touching_m && open_s < t; ++i) {
        const double middle = 0.5 * (open_s + t);
        (norm(to_nose(middle)) - radius_m < touching_m ? t : open_s) = middle;
      }
      // Down to round-off, so that the contact does not depend on where the search began.
      for (int i = 0; i < 3; ++i) {
        const Vec3 here = to_nose(t);
        const double closing_mps = dot(path.v + 2 * t * path.half_a, unit(here));
        if (closing_mps < dead_contact_mps) break;
        t = std::clamp(t + (norm(here) - radius_m) / closing_mps, std::min(open_s, t),
                       path.duration_s);
      }
      return {t, nearest_on(nose, plan(position_at(path, t)))};
    }
    if (gap >= touching_m) open_s = t;
    t += std::max(shortest_s, std::abs(gap) / top_speed);
  }
  return {};
}

}  // namespace

double next_meeting(const Path& first, const Path& second, double distance_m) {
  if (!first.moves && !second.moves) return never;
  if (!second.moves && !first.airborne) return next_meeting(first, second.p, distance_m);
  if (!first.moves && !second.airborne) return next_meeting(second, first.p, distance_m);
  const Vec3 apart = first.p - second.p;
  const Vec3 v = first.v - second.v;
  const Vec3 half_a = first.half_a - second.half_a;
  const double now_m = norm(apart);
  if (now_m - distance_m > first.longest_way_m + second.longest_way_m) return never;
  const double t_max = std::min(first.duration_s, second.duration_s);
  if (now_m > 0 &&
      stays_apart(now_m, dot(v, apart) / now_m, dot(half_a, apart) / now_m, t_max, distance_m)) {
    return never;
  }
  const double wanted = asked(distance_m, now_m, now_m > 0 ? -dot(apart, v) / now_m : 0);
  Polynomial gap = squared(apart, v, half_a);
  gap[0] = (now_m - wanted) * (now_m + wanted);
  return first_time(gap, t_max);
}

double next_meeting(const Path& mover, Vec3 standing, double distance_m) {
  if (!mover.moves) return never;
  if (mover.airborne) {
    return next_meeting(mover, {.p = standing, .duration_s = mover.duration_s}, distance_m);
  }
  const Vec2 place = plan(standing);
  if (!near(mover.box, {place, place}, distance_m)) return never;
  // Centres of unequal balls on the bed differ in height: their plan distance is what counts.
  const double up_m = mover.p.z - standing.z;
  return time_to_circle(mover, place, std::sqrt(distance_m * distance_m - up_m * up_m));
}

NoseContact next_nose(const Path& path, const NoseLine& nose, const Table& table, const Ball& ball,
                      double reach_m) {
  if (!path.moves) return {};
  if (path.airborne) return airborne_nose(path, nose, table.nose_height_m, ball.radius_m);
  NoseContact first;
  const auto there = [&](double t) { return plan(position_at(path, t)); };
  for (const NoseSegment& segment : nose.segments) {
    if (!near(path.box, segment.box, reach_m)) continue;
    const double t = time_to_line(path, segment, reach_m);
    if (t >= first.t_s) continue;
    const double s = dot(there(t) - segment.from, segment.along);
    first = {t, segment.from + std::clamp(s, 0.0, segment.length_m) * segment.along};
  }
  for (const NoseArc& arc : nose.arcs) {
    if (!near(path.box, arc.box, reach_m)) continue;
    const double t = time_to_arc(path, arc, reach_m);
    if (t >= first.t_s) continue;
    first = {t, arc.centre + arc.radius_m * unit(there(t) - arc.centre)};
  }
  for (const Vec2 corner : nose.corners) {
    if (!near(path.box, {corner, corner}, reach_m)) continue;
    const double t = time_to_circle(path, corner, reach_m);
    if (t < first.t_s) first = {t, corner};
  }
  return first;
}

PocketEntry next_pocket(const Path& path, const Table& table, const Ball& ball) {
  PocketEntry first;
  if (!path.moves) return first;
  for (std::size_t i = 0; i < table.pockets.size(); ++i) {
    const Pocket& pocket = table.pockets[i];
    if (!path.airborne && !near(path.box, {pocket.centre, pocket.centre}, pocket.fall_radius_m)) {
      continue;
    }
    double t = norm(plan(path.p) - pocket.centre) <= pocket.fall_radius_m
                   ? 0
                   : time_to_circle(path, pocket.centre, pocket.fall_radius_m);
    if (path.airborne && t != never && position_at(path, t).z > 2 * ball.radius_m) {
      // Over the pocket but too high: it drops in if it comes down before it has flown past.
      const double above = path.p.z - 2 * ball.radius_m;
      t = (path.v.z + std::sqrt(path.v.z * path.v.z + 2 * gravity_mps2 * above)) / gravity_mps2;
      const Vec2 at = plan(position_at(path, t));
      if (t > path.duration_s || norm(at - pocket.centre) > pocket.fall_radius_m) t = never;
    }
    if (t < first.t_s) first = {t, static_cast<int>(i)};
  }
  return first;
}

double next_exit(const Path& path, const NoseLine& nose, const Table& table) {
  constexpr double outside_m = 0.3;
  if (!path.airborne) return never;
  double first = never;
  const auto weigh = [&](double t) {
    if (t >= 0 && t <= path.duration_s) first = std::min(first, t);
  };
  const auto crossing = [&](double t) {
    if (t >= 0 && t <= path.duration_s && position_at(path, t).z > table.nose_height_m) weigh(t);
  };
  // In plan an airborne ball flies straight at constant speed.
  const Vec2 p = plan(path.p);
  const Vec2 v = plan(path.v);
  for (const NoseSegment& segment : nose.segments) {
    const double rate = cross(segment.along, v);
    if (rate == 0) continue;
    const double t = -cross(segment.along, p - segment.from) / rate;
    const double s = dot(p + t * v - segment.from, segment.along);
    if (s >= 0 && s <= segment.length_m) crossing(t);
  }
  for (const NoseArc& arc : nose.arcs) {
    // A path may pass beside the arc into its circle and cross the arc on the way out.
    const Vec2 from = p - arc.centre;
    const double vv = dot(v, v);
    const double half = dot(from, v);
    const double discriminant = half * half - vv * (dot(from, from) - arc.radius_m * arc.radius_m);
    if (vv == 0 || discriminant < 0) continue;
    for (const double root : {-std::sqrt(discriminant), std::sqrt(discriminant)}) {
      const double t = (root - half) / vv;
      if (arc.covers(from + t * v)) crossing(t);
    }
  }
  if (v.x < 0) weigh((-outside_m - p.x) / v.x);
  if (v.x > 0) weigh((table.width_m + outside_m - p.x) / v.x);
  if (v.y < 0) weigh((-outside_m - p.y) / v.y);
  if (v.y > 0) weigh((table.length_m + outside_m - p.y) / v.y);
  return first;
}

}  // namespace ahead::engine
