#include "coach/access/behind.h"

#include <algorithm>

namespace ahead::coach {
namespace {

using engine::Vec2;

/// Half the width of the strip that cue and hand can touch: the hand's fingers and a ball.
constexpr double strip_m = 0.15;
/// The cue's own strip: the furthest side, the butt, and a millimetre or two.
constexpr double cue_strip_m = 0.05;

}  // namespace

AimFrame aim_frame(Vec2 cue_ball, double aim_rad) {
  const Vec2 ahead = engine::direction(aim_rad);
  return {.origin = cue_ball, .back = -ahead, .right = -engine::left_of(ahead)};
}

Behind behind(const engine::Table& table, std::span<const Edge> edges, const Position& position,
              double aim_rad) {
  Behind all{.frame = aim_frame(position.at[0], aim_rad)};
  for (int i = 1; i < static_cast<int>(position.at.size()); ++i) {
    if (!has(position.present, i)) continue;
    const Vec2 at = all.frame.seen(position.at[static_cast<std::size_t>(i)]);
    if (at.x > -table.object_ball.radius_m && std::abs(at.y) < strip_m) {
      all.balls.push_back({.at = at, .ball = i});
    }
  }
  for (const Edge& edge : edges) {
    const Vec2 from = all.frame.seen(edge.from);
    const Vec2 to = all.frame.seen(edge.to);
    if (std::max(from.x, to.x) <= 0 || std::min(from.y, to.y) > cue_strip_m ||
        std::max(from.y, to.y) < -cue_strip_m) {
      continue;
    }
    all.edges.push_back({from, to, edge.height_m - table.cue_ball.radius_m, edge.kind});
  }
  return all;
}

}  // namespace ahead::coach
