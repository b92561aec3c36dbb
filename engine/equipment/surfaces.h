#pragma once

/// What the balls meet: cloth, cushion rubber and the cue. Coefficients are dimensionless unless
/// the name says otherwise; defaults are those of docs/physics.md, A2.
namespace ahead::engine {

/// Standard gravity as used in every published check value, m/s^2.
inline constexpr double gravity_mps2 = 9.81;

struct Cloth {
  double sliding = 0.20;          ///< ball-cloth sliding friction
  double rolling = 0.010;         ///< rolling resistance: a rolling ball slows at rolling * g
  double spin_decay_radps2 = 10;  ///< decay of the spin about the vertical
  double bed_restitution = 0.50;  ///< landing on the bed
  double hop_speed_mps = 0.15;    ///< vertical speed below which a ball stays down
  /// The nap's pull on a rolling ball, up the table (+y), as a share of its weight; at most half of
  /// `rolling`. Zero for worsted cloth, which has no nap.
  double nap = 0;

  friend bool operator==(const Cloth&, const Cloth&) = default;
};

struct Cushion {
  double restitution = 0.90;  ///< energetic: work given back over work taken, square root
  double friction = 0.14;     ///< ball-cushion

  friend bool operator==(const Cushion&, const Cushion&) = default;
};

struct Cue {
  double restitution = 0.75;  ///< tip on ball
  double mass_kg = 0.52;
  double end_mass_kg = 0.0075;  ///< mass of the shaft's end that moves sideways with the tip
  double miscue_offset = 0.50;  ///< largest offset of the contact, as a fraction of the radius
  double tip_radius_m = 0.009;  ///< radius of the tip's dome
  double tip_width_m = 0.009;   ///< diameter of the tip

  friend bool operator==(const Cue&, const Cue&) = default;
};

}  // namespace ahead::engine
