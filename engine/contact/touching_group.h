#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "engine/equipment/ball.h"
#include "engine/motion/ball_state.h"

/// Balls that touch or nearly touch are resolved together, as elastic contacts in time.
///
/// A collision next to a neighbour is not a pair's affair: the impacts overlap. Each contact of the
/// group carries the Hertz force k d^1.5 with a damping that gives a lone pair its restitution,
/// F = max(0, k d^1.5 + A sqrt(m' k) d^0.25 d'), d the compression. Friction is mu at the largest
/// slip that the contact has had, and at most what stops the slip. Lines of centres are those at
/// the moment of contact; the event takes no time and moves no ball.
///
/// Source: Hertz contact with the damping of Tsuji, Tanaka and Ishida (1992); docs/physics.md, F.
/// All contacts are stepped at once, so the order of listing cannot matter.
namespace ahead::engine {

/// Surface gap below which a ball belongs to the group, m: what a firm ball travels in one contact.
inline constexpr double group_gap_m = 0.001;

struct HertzContact {
  std::size_t first = 0;
  std::size_t second = 0;
  Vec3 n;  ///< from first to second
  double reduced_kg = 0;
  double stiffness = 0;      ///< k, N/m^1.5
  double compression_m = 0;  ///< negative while there is a gap
  double largest_slip_mps = 0;
};

/// Resolves one group after another, in memory that is used again.
class TouchingGroup {
 public:
  /// Changes the balls' velocities and spins. Positions stay. Balls are all the group's members,
  /// and at least one pair in contact approaches. The bed answers afterwards (landing.h).
  void resolve(std::span<BallState> states, std::span<const Ball> balls,
               const BallContact& contact);

 private:
  struct Moment {
    std::vector<BallState> states;
    std::vector<HertzContact> contacts;
  };
  Moment now_;
  Moment half_;  ///< in the middle of a step
};

}  // namespace ahead::engine
