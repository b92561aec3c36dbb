#include "coach/access/bridge.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "coach/access/rail_section.h"

namespace ahead::coach {
namespace {

using engine::Table;
using engine::Vec2;

/// Room to leave between hand and ball, m.
constexpr double hand_clear_m = 0.003;

constexpr Heights rest_head{0.035, 0.050};
constexpr Heights spider_head{0.090, 0.110};

/// The ground under a bridge, from where the cue lies in it.
struct Footprint {
  double ahead_m, behind_m;
  double fingers_m;  ///< to the hand's own side
  double thumb_m;    ///< to the other
};

Footprint footprint_of(Posture posture) {
  switch (posture) {
    case Posture::flat:
      return {0.050, 0.070, 0.070, 0.030};
    case Posture::fingertips:
      return {0.030, 0.040, 0.055, 0.025};
    case Posture::rest:
    case Posture::spider:
      break;
  }
  return {0.020, 0.020, 0.030, 0.030};
}

/// An upright box seen along the aim.
struct Patch {
  Vec2 low, high;

  [[nodiscard]] bool within(Vec2 at, double distance_m) const {
    const Vec2 nearest{std::clamp(at.x, low.x, high.x), std::clamp(at.y, low.y, high.y)};
    const Vec2 off = at - nearest;
    return engine::dot(off, off) < distance_m * distance_m;
  }
  [[nodiscard]] std::array<Vec2, 4> corners() const {
    return {low, {high.x, low.y}, high, {low.x, high.y}};
  }
};

/// How far outside the lines of the noses a place lies, m; negative on the bed.
double out_of_bed_m(const Table& table, Vec2 at) {
  return std::max({-at.x, at.x - table.width_m, -at.y, at.y - table.length_m});
}

enum class Ground { cloth, cushion, rail, none };

Ground ground_of(const Table& table, const AimFrame& frame, const Patch& patch, Vec2 cue_lies) {
  const double out_m = out_of_bed_m(table, frame.on_table(cue_lies));
  if (out_m > rail_width_m) return Ground::none;
  if (out_m > rail_top_behind_nose_m) return Ground::rail;
  const bool all_on_cloth = std::ranges::all_of(patch.corners(), [&](Vec2 corner) {
    return out_of_bed_m(table, frame.on_table(corner)) < 0;
  });
  return all_on_cloth ? Ground::cloth : Ground::cushion;
}

/// The shaft of a rest lies on the cloth, a little to one side of the cue, back to the rail.
bool shaft_fits(const Behind& behind, Vec2 head, double ball_radius_m) {
  constexpr double half_width_m = 0.015;
  constexpr double degrees = std::numbers::pi / 180;
  return std::ranges::any_of(std::array{-12.0, -6.0, 6.0, 12.0}, [&](double angle) {
    const Vec2 along = engine::direction(angle * degrees);
    return std::ranges::none_of(behind.balls, [&](const Behind::Ball& ball) {
      const Vec2 off = ball.at - head;
      return engine::dot(off, along) > 0 &&
             std::abs(engine::cross(along, off)) < half_width_m + ball_radius_m;
    });
  });
}

BridgePlace held(Support support, double ground_m, const Heights& heights) {
  return {.free = true,
          .support = support,
          .low_m = ground_m + heights.low_m,
          .high_m = ground_m + heights.high_m};
}

}  // namespace

BridgePlace bridge_place(const Table& table, const Bridging& bridging, const Behind& behind,
                         double right_m, double distance_m, Posture posture, Hand hand) {
  const Footprint foot = footprint_of(posture);
  // Who grips with the right hand bridges with the left, whose fingers point to the left.
  const double left_m = hand == Hand::right ? foot.fingers_m : foot.thumb_m;
  const double over_m = hand == Hand::right ? foot.thumb_m : foot.fingers_m;
  const Vec2 at{distance_m, right_m};
  const Patch patch{.low = {at.x - foot.ahead_m, at.y - left_m},
                    .high = {at.x + foot.behind_m, at.y + over_m}};
  for (const Behind::Ball& ball : behind.balls) {
    if (patch.within(ball.at, table.object_ball.radius_m + hand_clear_m)) {
      return {.ball = ball.ball};
    }
  }
  const Ground ground = ground_of(table, behind.frame, patch, at);
  if (ground == Ground::none) return {};
  for (const engine::Pocket& pocket : table.pockets) {
    if (patch.within(behind.frame.seen(pocket.centre), pocket.fall_radius_m)) return {};
  }

  if (posture == Posture::rest || posture == Posture::spider) {
    // Rests stand on the cloth. The spider's shaft comes down over the balls near its head.
    if (ground != Ground::cloth) return {};
    if (posture == Posture::spider) return held(Support::spider, 0, spider_head);
    if (!shaft_fits(behind, at, table.object_ball.radius_m)) return {};
    return held(Support::rest, 0, rest_head);
  }
  const bool flat = posture == Posture::flat;
  const Heights& heights = flat ? bridging.flat : bridging.raised;
  switch (ground) {
    case Ground::cloth:
      if (!flat) return held(Support::raised, 0, heights);
      return held(bridging.closed ? Support::closed : Support::open, 0, heights);
    case Ground::cushion:
      // Between cloth and cushion the cue may lie right on the nose.
      if (!flat) return held(Support::raised, table.nose_height_m, heights);
      return held(Support::cushion, table.nose_height_m, {0, heights.high_m});
    case Ground::rail:
      break;
    case Ground::none:
      return {};
  }
  // On the rail a looped finger or a slot between two fingers holds the cue close to the wood.
  constexpr double slot_m = 0.005;
  const double top_m = table.nose_height_m + rail_top_above_nose_m;
  if (!flat) return held(Support::raised, top_m, heights);
  return held(Support::rail, top_m, {slot_m, heights.high_m});
}

}  // namespace ahead::coach
