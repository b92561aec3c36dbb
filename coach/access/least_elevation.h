#pragma once

#include <span>

#include "engine/contact/strike.h"
#include "engine/equipment/table.h"

/// How far the butt must be raised so that the cue clears the cushion and the balls behind the
/// cue ball.
///
/// The cue is a straight cone from tip to butt whose centre line passes the ball (R + tip radius)/R
/// further out than the tip touches. Behind the ball it must clear the nose, the rail's top, and
/// every ball. Where the hand goes is not asked here.
///
/// Source: geometry. Measures that no standard gives are common practice, no source: butt 29 mm on
/// a cue of 1.45 m, rail top 10 mm above the nose from 45 mm behind it, 130 mm wide, 1.5 mm clear.
namespace ahead::coach {

/// Least elevation, rad, 0 to pi/2, for the strike's aim, side and height. `others` are the centres
/// of the balls on the table other than the cue ball.
[[nodiscard]] double least_elevation_rad(const engine::Table& table, engine::Vec2 cue_ball,
                                         std::span<const engine::Vec2> others,
                                         const engine::Strike& strike);

}  // namespace ahead::coach
