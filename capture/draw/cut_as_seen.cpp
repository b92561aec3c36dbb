#include "capture/draw/cut_as_seen.h"

#include <cmath>

namespace ahead::capture {

std::optional<CutAsSeen> cut_as_seen(const Camera& camera, Vec2 cue_ball, Vec2 contact, Vec2 target,
                                     double radius_m) {
  const Vec2 aim = unit(contact - cue_ball);
  const Vec2 leaves = unit(target - contact);
  // A short way along either line: a long one would say how the lens bends them.
  constexpr double short_m = 0.02;
  const auto from = pixel_of(camera, engine::lift(contact, radius_m));
  const auto on = pixel_of(camera, engine::lift(contact + short_m * aim, radius_m));
  const auto out = pixel_of(camera, engine::lift(contact + short_m * leaves, radius_m));
  if (!from || !on || !out) return std::nullopt;
  const auto between = [](Vec2 a, Vec2 b) { return std::abs(std::atan2(cross(a, b), dot(a, b))); };
  return CutAsSeen{.true_rad = between(aim, leaves),
                   .seen_rad = between(*on - *from, *out - *from)};
}

}  // namespace ahead::capture
