#include "coach/pots/pot_chance.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "coach/player/scatter.h"

namespace ahead::coach {
namespace {

using engine::Table;
using engine::Vec2;

double normal_below(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

}  // namespace

std::optional<GatedAim> aim_through(const Table& table, Vec2 cue, Vec2 object,
                                    const PacedGates& gates, const engine::Strike& touch_and_pace) {
  // The object ball's pace is known only once the aim is, and the gate hangs on it: twice is
  // enough.
  std::optional<Gate> gate = gate_at(gates, touch_and_pace.cue_speed_mps);
  std::optional<GatedAim> aimed;
  for (int i = 0; i < 2 && gate; ++i) {
    const Vec2 target = object + engine::direction(gate->middle_rad());
    const auto aim = aim_at(table, cue, object, target, touch_and_pace);
    if (!aim) return std::nullopt;
    aimed = GatedAim{*aim, *gate};
    gate = gate_at(gates, engine::norm(engine::plan(aim->contact.object_after.velocity)));
  }
  if (!gate) return std::nullopt;
  return aimed;
}

double pot_chance(const Table& table, const Player& player, Vec2 cue, Vec2 object,
                  const GatedAim& aimed, double error_factor) {
  const engine::Strike& strike = aimed.aim.strike;
  const double meant_rad = rolling_direction_rad(table, aimed.aim.contact.object_after);
  const Slip sigma =
      sigmas(player, {.elevation_rad = strike.elevation_rad, .carried = error_factor});
  double variance = 0;
  for (const Slip& slip :
       {Slip{.direction_rad = sigma.direction_rad}, Slip{.direction_rad = -sigma.direction_rad},
        Slip{.pace = sigma.pace}, Slip{.tip_height_m = sigma.tip_height_m},
        Slip{.tip_side_m = sigma.tip_side_m}}) {
    const double weight = slip.direction_rad != 0 ? 0.5 : 1.0;
    const engine::Strike tried = played(strike, slip, table);
    double turned_rad = std::numbers::pi / 2;  // a miss of the ball
    if (engine::miscues(tried, table.cue)) {
      turned_rad = 0;  // its own risk, below
    } else if (const auto contact = first_contact(table, cue, object, tried)) {
      turned_rad = std::remainder(rolling_direction_rad(table, contact->object_after) - meant_rad,
                                  2 * std::numbers::pi);
    }
    variance += weight * turned_rad * turned_rad;
  }
  const double spread_rad = std::sqrt(variance);
  const double tip_sigma = std::hypot(sigma.tip_height_m, sigma.tip_side_m) / std::numbers::sqrt2 /
                           table.cue_ball.radius_m;
  const double held =
      tip_sigma > 0 ? normal_below((table.cue.miscue_offset - engine::offset(strike)) / tip_sigma)
                    : 1.0;
  if (spread_rad == 0) return held;
  return held * (normal_below((aimed.gate.to_rad - meant_rad) / spread_rad) -
                 normal_below((aimed.gate.from_rad - meant_rad) / spread_rad));
}

}  // namespace ahead::coach
