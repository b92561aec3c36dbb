#pragma once

#include <limits>

#include "coach/player/player.h"
#include "engine/equipment/table.h"

/// One strike's cue as a body: where its centre line runs, how thick it is, and how far it must be
/// raised to pass what stands under it.
///
/// A cone from tip to butt (after a parallel stretch, if the cue has one). The tip is a dome, so
/// the centre line passes (R + tip radius)/R further out than the tip touches. The line is taken
/// through to the ball's middle: on the follow-through the tip goes there.
/// Frame: from the cue ball's centre, x back along the line in plan, y to the player's right, z up.
/// Source: distance between lines and of a point from a line, elementary geometry in three
/// dimensions. The cone's slope (0.4 degrees) is allowed for.
namespace ahead::coach {

/// The butt cannot be raised further for a stroke of the cue, rad: 60 degrees (common practice, no
/// source; what is recommended ends long before).
inline constexpr double steepest_rad = 1.0472;

/// An elevation for what cannot be passed by raising the butt, rad.
inline constexpr double never_rad = std::numeric_limits<double>::infinity();

/// Room left between the cue and anything else, m (common practice, no source).
inline constexpr double cue_clear_m = 0.0015;

struct CueLine {
  double right_m = 0;  ///< of the ball's centre, in plan
  double above_m = 0;  ///< over the ball's centre, square to the line
  double ball_radius_m = 0;
  double tip_radius_m = 0;
  double butt_radius_m = 0;
  double length_m = 0;
  double parallel_m = 0;

  /// Thickness of the cue, as a radius, `from_ball_m` back along the line from the ball's middle.
  [[nodiscard]] double radius_at(double from_ball_m) const;
  /// How far back the butt's end is.
  [[nodiscard]] double end_m() const { return ball_radius_m + length_m; }
};

/// For a touch at `side` and `height` of the cue ball's radius.
[[nodiscard]] CueLine cue_line(const engine::Table& table, const OwnCue& cue, double side,
                               double height);

/// Least elevation, rad, at which the cue passes over a ball at `at`; 0 when it passes level.
[[nodiscard]] double elevation_over_ball(const CueLine& line, engine::Vec3 at, double radius_m);

/// Least elevation, rad, over a straight level edge, `z_m` over the ball's centre.
[[nodiscard]] double elevation_over_edge(const CueLine& line, engine::Vec2 from, engine::Vec2 to,
                                         double z_m);

/// Height of the cue's underside over the ball's centre, `behind_m` back in plan.
[[nodiscard]] double underside_m(const CueLine& line, double behind_m, double elevation_rad);

/// Elevation at which the underside is at `z_m` there: the inverse of underside_m().
[[nodiscard]] double elevation_for_underside(const CueLine& line, double behind_m, double z_m);

}  // namespace ahead::coach
