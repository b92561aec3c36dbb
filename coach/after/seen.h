#pragma once

#include <optional>
#include <span>
#include <vector>

#include "coach/position.h"

/// How well does a simulated shot fit the layout that was found after the real one?
///
/// Each ball is judged by itself. A ball that was found at x, and that the simulation leaves at y
/// after a path of length l, has the density
///   (1 - stray) N2(x - y; s) + stray / bed,   s^2 = sigma^2 + (drift l)^2,
/// with sigma the measurement error. The second part of s allows for the table's figures being a
/// little off; the floor allows for anything else (a kick, a nudged ball, a mistake in the layout),
/// so no ball can rule out every strike. A ball that has gone tells no more than that.
namespace ahead::coach {

/// One-sigma measurement error of a found ball whose layout states none, m (assumption: a ball
/// placed by eye on a diagram, or read off a photograph).
inline constexpr double assumed_sigma_m = 0.003;

/// What a run may end away from where the engine has it, per metre run (assumption: 5 mm a metre).
inline constexpr double drift_per_m = 0.005;

/// The chance that a ball's place has nothing to do with the simulation (assumption).
inline constexpr double stray_chance = 0.01;

/// A ball of the layout before the shot, as it was found afterwards. `at` is nothing when it has
/// gone.
struct SeenBall {
  std::optional<engine::Vec2> at;
  double sigma_m = assumed_sigma_m;
};

/// The balls of `before`, found again by id in `actual`.
[[nodiscard]] std::vector<SeenBall> seen_in(const Layout& before, const Layout& actual);

/// How one ball's simulated end differs from what was seen.
struct Misfit {
  bool seen = false;   ///< was found on the bed
  bool stays = false;  ///< is on the bed in the simulation
  double apart_m = 0;  ///< when both
  double sigma_m = 0;  ///< s above
};

/// One a ball of the shot. Requires a shot of as many balls, which lay at `from`.
void misfits_of(const engine::Shot& shot, std::span<const engine::Vec2> from,
                std::span<const SeenBall> seen, std::span<Misfit> misfits);

/// Logarithm of the likelihood of what was seen, balls together. With `widen` above 1 as if every s
/// were so many times larger.
[[nodiscard]] double log_likelihood(std::span<const Misfit> misfits, double bed_m2,
                                    double widen = 1);

/// Whether the floor accounts for this ball better than the simulation does.
[[nodiscard]] bool is_stray(const Misfit& misfit, double bed_m2);

}  // namespace ahead::coach
