#pragma once

#include "coach/player/scatter.h"

/// From the strike that came out back to the one that was meant: how likely is it?
///
/// The density of what `drawn` and `played` of scatter.h draw, over the strikes that come out:
/// launch direction, cue speed, place of the tip and elevation, each normal. A butt that came out
/// level stands for all slips that would have gone below level.
///
/// Ratios of two densities of the same strike mean something; the unit of one is that of their
/// product. Strikes that miscue have none: the tip slips before the launch.
namespace ahead::coach {

/// Where a strike lies among those that can come out.
struct CameOut {
  double launch_rad = 0;  ///< the cue ball's first direction, deflection counted
  double cue_speed_mps = 0;
  double height = 0;  ///< of the radius, as in engine::Strike
  double side = 0;
  double elevation_rad = 0;
};

/// Requires a strike that does not miscue.
[[nodiscard]] CameOut came_out(const engine::Strike& strike, const engine::Table& table);

class Likelihood {
 public:
  /// Of what comes out when this player means `intended`, carried as `carried` of Handicapped says.
  Likelihood(const Player& player, const engine::Strike& intended, double carried,
             const engine::Table& table);

  /// 0 beyond ten sigmas.
  [[nodiscard]] double operator()(const CameOut& strike) const;

 private:
  CameOut mean_;
  CameOut per_sigma_;  ///< one over each sigma, in the units of `mean_`
  double height_ = 0;  ///< of the density at its mean
  double level_ = 0;   ///< what a level butt has in place of the density of its elevation
};

}  // namespace ahead::coach
