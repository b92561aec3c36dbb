#pragma once

#include "coach/aim/aim.h"
#include "coach/player/player.h"
#include "coach/pots/gate.h"

/// The chance that a ball drops, to first order in the player's errors.
///
/// Each error by one sigma, through the short way from cue to object-ball direction
/// (aim/contact.h), gives its share of the direction's spread; the gate gives the rest. Good for
/// choosing; the figures that are shown come from playing the strike out (risk/tries.h).
namespace ahead::coach {

/// The aim through the middle of the gate at the pace that the object ball gets, or nothing.
struct GatedAim {
  Aim aim;
  Gate gate;
};
[[nodiscard]] std::optional<GatedAim> aim_through(const engine::Table& table, engine::Vec2 cue,
                                                  engine::Vec2 object, const PacedGates& gates,
                                                  const engine::Strike& touch_and_pace);

/// `error_factor` is that of Access.
[[nodiscard]] double pot_chance(const engine::Table& table, const Player& player, engine::Vec2 cue,
                                engine::Vec2 object, const GatedAim& aimed, double error_factor);

}  // namespace ahead::coach
