#include "engine/simulate/playfield.h"

#include <algorithm>
#include <utility>

#include "engine/contact/cushion.h"

namespace ahead::engine {
namespace {

Runner runner_on(const Table& table, const Ball& ball) {
  return {.ball = ball,
          .reach_m = nose_reach_m(ball, table.nose_height_m),
          .rebound = {ball, table.nose_height_m, table.cushion, table.cloth}};
}

/// `inner` cut back until `keep_out` lies outside, on the side where least is lost.
Box without(Box inner, const Box& keep_out) {
  if (!near(inner, keep_out, 0)) return inner;
  const double left = keep_out.high.x - inner.low.x;
  const double right = inner.high.x - keep_out.low.x;
  const double bottom = keep_out.high.y - inner.low.y;
  const double top = inner.high.y - keep_out.low.y;
  const double least = std::min({left, right, bottom, top});
  if (least == left) {
    inner.low.x = keep_out.high.x;
  } else if (least == right) {
    inner.high.x = keep_out.low.x;
  } else if (least == bottom) {
    inner.low.y = keep_out.high.y;
  } else {
    inner.high.y = keep_out.low.y;
  }
  return inner;
}

Box open_bed_of(const Table& table, const NoseLine& nose, double reach_m) {
  Box bed{{0, 0}, {table.width_m, table.length_m}};
  for (const NoseSegment& segment : nose.segments) bed = without(bed, grown(segment.box, reach_m));
  for (const NoseArc& arc : nose.arcs) bed = without(bed, grown(arc.box, reach_m));
  for (const Vec2 corner : nose.corners) bed = without(bed, around(corner, reach_m));
  for (const Pocket& pocket : table.pockets) {
    bed = without(bed, around(pocket.centre, pocket.fall_radius_m));
  }
  constexpr double margin_m = 0.001;  // far more than a contact may sink
  return grown(bed, -margin_m);
}

}  // namespace

Playfield::Playfield(Table table)
    : table_(std::move(table)),
      nose_(nose_line(table_.rails)),
      cue_ball_(runner_on(table_, table_.cue_ball)),
      object_ball_(runner_on(table_, table_.object_ball)),
      open_bed_(open_bed_of(table_, nose_, std::max(cue_ball_.reach_m, object_ball_.reach_m))) {}

}  // namespace ahead::engine
