#include "engine/contact/rolling_rebound.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "engine/contact/ball_ball.h"
#include "engine/contact/cushion.h"

namespace ahead::engine {
namespace {

constexpr std::size_t intervals = 1024;

/// Slip up the nose of a rolling ball that closes at 1 m/s.
double slip_up(Tilt tilt) { return -(1 + tilt.sin) / tilt.cos; }

}  // namespace

RollingRebound::RollingRebound(const Ball& ball, double nose_height_m, const Cushion& cushion,
                               const Cloth& cloth)
    : ball_(ball), tilt_(nose_tilt(ball, nose_height_m)) {
  curve_.reserve(intervals + 1);
  for (std::size_t i = 0; i <= intervals; ++i) {
    // The place on the curve is slip/(1 + slip): even where rebounds differ, and it ends.
    const double place = std::min(static_cast<double>(i) / intervals, 1 - 1e-9);
    curve_.push_back(
        nose_impulses({{place / (1 - place), slip_up(tilt_)}, {}}, tilt_, cushion, cloth));
  }
}

Impulses RollingRebound::impulses(double slip_along) const {
  const double slip = std::abs(slip_along);
  const double at = intervals * (slip / (1 + slip));
  const std::size_t i = std::min(static_cast<std::size_t>(at), intervals - 1);
  const double rest = at - static_cast<double>(i);
  const Impulses& a = curve_[i];
  const Impulses& b = curve_[i + 1];
  const auto between = [rest](Vec2 from, Vec2 to) { return from + rest * (to - from); };
  Impulses read{.normal = a.normal + rest * (b.normal - a.normal),
                .nose = between(a.nose, b.nose),
                .bed = between(a.bed, b.bed)};
  // The mirror image of an impact is an impact.
  if (slip_along < 0) {
    read.nose.x = -read.nose.x;
    read.bed.y = -read.bed.y;
  }
  return read;
}

BallState RollingRebound::rebounded(const BallState& before, Vec2 toward) const {
  const double closing = tilt_.cos * dot(plan(before.velocity), toward);
  const Slips slips = slips_at_nose(before, ball_, toward, tilt_);
  const Impulses unit = impulses(slips.nose.x / closing);
  return pushed(before, ball_, toward, tilt_,
                {closing * unit.normal, closing * unit.nose, closing * unit.bed});
}

}  // namespace ahead::engine
