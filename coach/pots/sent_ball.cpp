#include "coach/pots/sent_ball.h"

#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

#include "coach/aim/contact.h"
#include "engine/motion/motion.h"

namespace ahead::coach {
namespace {

using engine::Table;
using engine::Vec2;

/// In the order of Errors.
constexpr std::array kinds{&Slip::direction_rad, &Slip::pace, &Slip::tip_height_m,
                           &Slip::tip_side_m, &Slip::elevation_rad};

/// The slip with the tip drawn back to where it just holds.
Slip held(Slip slip, const engine::Strike& strike, const Table& table) {
  const double radius_m = table.cue_ball.radius_m;
  const double side = strike.side + slip.tip_side_m / radius_m;
  const double height = strike.height + slip.tip_height_m / radius_m;
  const double offset = engine::norm(Vec2{side, height});
  if (offset <= table.cue.miscue_offset) return slip;
  const double part = table.cue.miscue_offset / offset;
  slip.tip_side_m = (part * side - strike.side) * radius_m;
  slip.tip_height_m = (part * height - strike.height) * radius_m;
  return slip;
}

}  // namespace

double half_turn(double angle_rad) {
  return std::abs(angle_rad) <= std::numbers::pi ? angle_rad
                                                 : std::remainder(angle_rad, 2 * std::numbers::pi);
}

double plain_speed_mps(const Table& table, const engine::BallState& object) {
  const double rolls_at = engine::norm(engine::rolling_velocity_to_come(object, table.object_ball));
  const double slip = engine::norm(engine::slip(object, table.object_ball));
  const double slide = engine::gravity_mps2 * table.cloth.sliding;
  const double roll = engine::gravity_mps2 * table.cloth.rolling;
  const double slides_for_s = 2 * slip / (7 * slide);
  const double starts_at = engine::norm(engine::plan(object.velocity));
  const double run_m =
      0.5 * (starts_at + rolls_at) * slides_for_s + rolls_at * rolls_at / (2 * roll);
  return std::sqrt(run_m / (12 / (49 * slide) + 25 / (98 * roll)));
}

SentBall::SentBall(const Scene& scene, const Position& position, int ball, const Aim& aim,
                   const Slip& sigma, const Slip& bias)
    : table_(scene.field.table()),
      cue_(position.at[0]),
      object_(position.at[static_cast<std::size_t>(ball)]),
      strike_(aim.strike),
      sigma_(sigma),
      bias_(bias),
      meant_rad_(rolling_direction_rad(table_, aim.contact.object_after)),
      meant_way_rad_(engine::angle_rad(engine::plan(aim.contact.cue_before.position) - cue_)) {}

Slip SentBall::slip_of(const Errors& errors) const {
  Slip slip = bias_;
  for (std::size_t k = 0; k < kinds.size(); ++k) slip.*kinds[k] += errors[k] * sigma_.*kinds[k];
  return slip;
}

engine::Strike SentBall::strike_with(const Errors& errors) const {
  return played(strike_, slip_of(errors), table_);
}

std::optional<Sent> SentBall::sent(const Errors& errors) const {
  const Slip slip = held(slip_of(errors), strike_, table_);
  const auto contact = first_contact(table_, cue_, object_, played(strike_, slip, table_));
  if (!contact) return std::nullopt;
  const Vec2 way = engine::plan(contact->cue_before.position) - cue_;
  return Sent{
      .direction_rad = half_turn(rolling_direction_rad(table_, contact->object_after) - meant_rad_),
      .speed_mps = plain_speed_mps(table_, contact->object_after),
      .cue_turn_rad = half_turn(engine::angle_rad(way) - meant_way_rad_)};
}

}  // namespace ahead::coach
