#pragma once

#include <optional>

#include "coach/aim/aim.h"
#include "coach/player/scatter.h"
#include "coach/pots/errors.h"
#include "coach/scene.h"

/// How an object ball goes off when the strike is made with given errors: the short way from the
/// tip to the object ball (aim/contact.h), without playing the shot. SI.
namespace ahead::coach {

struct Sent {
  double direction_rad = 0;  ///< from the meant one
  double speed_mps = 0;      ///< of the plain ball that runs as far
  double cue_turn_rad = 0;   ///< of the cue ball's way to the contact, from the meant way
};

/// Gates are measured with balls sent off without spin (pots/gate.h). A ball that the contact gave
/// some spin counts as the one without that runs as far: with the first slide and then the roll,
/// v^2 (12/(49 mu_s g) + 25/(98 mu_r g)) from rigid-body theory after Coriolis (1835).
[[nodiscard]] double plain_speed_mps(const engine::Table& table, const engine::BallState& object);

/// As an angle from -pi to pi.
[[nodiscard]] double half_turn(double angle_rad);

class SentBall {
 public:
  /// `sigma` and `bias` are those of this player for this strike.
  SentBall(const Scene& scene, const Position& position, int ball, const Aim& aim,
           const Slip& sigma, const Slip& bias);

  /// Nothing when the cue ball misses it. A tip that would slip off counts as at the very limit.
  [[nodiscard]] std::optional<Sent> sent(const Errors& errors) const;

  /// The strike with these errors; may miscue.
  [[nodiscard]] engine::Strike strike_with(const Errors& errors) const;

  /// The direction in which the ball goes when the strike is made without error or bias.
  [[nodiscard]] double meant_rad() const { return meant_rad_; }

 private:
  [[nodiscard]] Slip slip_of(const Errors& errors) const;

  const engine::Table& table_;
  engine::Vec2 cue_;
  engine::Vec2 object_;
  engine::Strike strike_;
  Slip sigma_;
  Slip bias_;
  double meant_rad_;
  double meant_way_rad_;
};

}  // namespace ahead::coach
