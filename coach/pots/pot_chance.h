#pragma once

#include "coach/aim/aim.h"
#include "coach/pots/way.h"

/// The chance that a ball drops, from the player's errors and the gate.
///
/// A strike with errors goes the short way from cue to object ball (aim/contact.h), and the gate
/// says whether the ball drops. For ranking, line sampling in the space of the five errors
/// (Koutsourelakis, Pradlwarter and Schueller, 2004; from memory): along the line on which the
/// object ball's direction answers most, the share that drops is integrated, gate and pace
/// together; across it, where little changes, it is averaged over a few lines.
///
/// The short way leaves out what happens before and after the one contact (a cushion or a grazed
/// ball first, a second kiss) and spin at the jaws. Where the figure stands by itself, thousands of
/// errors go the short way, some of them are played, and what those show otherwise is added. The
/// uncertainty of captured places is left out. `./dev pots` compares it with playing out.
namespace ahead::coach {

/// The aim through the middle of the gate at the pace that the object ball gets, or nothing. Looked
/// for from `near_rad` on, an aim for much the same strike, if given.
struct GatedAim {
  Aim aim;
  Gate gate;
};
[[nodiscard]] std::optional<GatedAim> aim_through(const engine::Table& table, engine::Vec2 cue,
                                                  engine::Vec2 object, const PotGates& gates,
                                                  const engine::Strike& touch_and_pace,
                                                  std::optional<double> near_rad = {});

/// Quick for ranking thousands of strikes: one line is followed, and shifted, and nothing played.
/// Exact for a figure that stands by itself, in some ten milliseconds.
enum class ChanceCare { quick, exact };

/// `error_factor` is that of Access. Quick counts balls that the cue ball would meet first as
/// failure.
[[nodiscard]] double pot_chance(const Scene& scene, const Position& position, const Way& way,
                                const Aim& aim, double error_factor,
                                ChanceCare care = ChanceCare::quick);

}  // namespace ahead::coach
