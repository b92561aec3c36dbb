#pragma once

#include "coach/aim/aim.h"
#include "coach/pots/way.h"

/// The chance that a ball drops, from the player's errors and the gate, without playing a shot.
///
/// The short way from cue to object ball (aim/contact.h) is followed for some errors of direction,
/// where it bends most, and for one of each other kind on either side; in between, the object
/// ball's direction and pace are read off: straight lines over the direction, to second order in
/// the others. The gate at that pace then says which directions drop. Pace, tip and elevation are
/// averaged over a fixed lattice of errors, the direction is integrated exactly.
///
/// Left out: what happens after the object ball has left (a second kiss, a ball that a grazed one
/// still lets in) and the uncertainty of captured places. `./dev pots` compares it with playing
/// out.
namespace ahead::coach {

/// The aim through the middle of the gate at the pace that the object ball gets, or nothing.
struct GatedAim {
  Aim aim;
  Gate gate;
};
[[nodiscard]] std::optional<GatedAim> aim_through(const engine::Table& table, engine::Vec2 cue,
                                                  engine::Vec2 object, const PotGates& gates,
                                                  const engine::Strike& touch_and_pace);

/// Over how many errors the average is taken: quick for ranking thousands of strikes, exact for a
/// figure that stands by itself.
enum class ChanceCare { quick, exact };

/// `error_factor` is that of Access. Balls that the cue ball would meet first count as failure.
[[nodiscard]] double pot_chance(const Scene& scene, const Position& position, const Way& way,
                                const Aim& aim, double error_factor,
                                ChanceCare care = ChanceCare::quick);

}  // namespace ahead::coach
