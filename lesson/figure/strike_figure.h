#pragma once

#include <string>

#include "coach/access/face.h"
#include "coach/player/player.h"
#include "engine/contact/strike.h"
#include "engine/equipment/table.h"
#include "lesson/figure/svg.h"

/// The cue ball's face seen along the cue, large enough to copy.
///
/// Two places are drawn and named, because they differ: where the tip touches (the ball obeys it)
/// and where the cue's centre line points (the player copies it), (R + tip radius)/R further out.
/// Round the touch lie ellipses of one and two sigma of the player's own scatter. What the player
/// cannot reach on this aim is hatched, with the reason below.
namespace ahead::lesson {

/// Radius of the face in the figure's units.
inline constexpr double face_radius = 130;

/// A place on the face given in fractions of the ball's radius (right and up positive).
[[nodiscard]] Point on_face(double side, double height);

/// Where the cue's centre line points, in fractions of the ball's radius.
[[nodiscard]] engine::Vec2 cue_points_at(const engine::Strike& strike, const engine::Table& table);

/// How the strike is reached.
struct StrikeReach {
  double error_factor = 1;  ///< on the player's scatter; see coach::Access
  coach::Face face;         ///< empty: nothing is hatched
  std::string because;      ///< why the hatched part is out of reach
};

[[nodiscard]] Drawing strike_figure(const engine::Strike& strike, const coach::Player& player,
                                    const engine::Table& table, const StrikeReach& reach = {});

}  // namespace ahead::lesson
