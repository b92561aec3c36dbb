#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "coach/pots/shot_option.h"
#include "coach/pots/way.h"

/// One pot looked at closely: does it go, how wide is the gate, and what can be done with the cue
/// ball.
namespace ahead::coach {

/// Where the cue ball should stop.
struct Leave {
  engine::Vec2 at;
  double radius_m = 0;
};

/// A strike of the analysis; `lands` is the share of tries that potted and stopped in the leave.
struct AnalysedStrike {
  ShotOption option;
  std::optional<Chance> lands;
};

/// Why a ball cannot be potted now.
enum class NoPot {
  closed,        ///< no direction drops: angle, cushion, or balls that stay
  blocked,       ///< balls on the pot line (they may go before)
  cut_too_fine,  ///< the cue ball is on the wrong side: the cut is beyond 90 degrees
  no_access,     ///< the line is there, but the player reaches no strike that is recommended
  no_strike      ///< ... but no strike of the set pots it from here
};

struct PotAnalysis {
  int ball = 0;
  int pocket = 0;
  std::optional<NoPot> no_pot;
  BallSet blockers = 0;
  PacedGates gates;
  double to_pocket_m = 0;
  engine::Vec2 ghost;      ///< of a plain pot through the middle of the medium gate
  double tangent_rad = 0;  ///< where a stunned cue ball of equal weight would leave, rad
  Face face;               ///< of the cue ball, played plain at the ghost ball
  std::vector<AnalysedStrike> strikes;  ///< best first
};

/// Tries every touch of a set with this player's errors, and ranks by the share that lands in
/// `leave` or, without one, by the chance of the pot.
[[nodiscard]] PotAnalysis analyse_pot(const Scene& scene, const Position& position, int ball,
                                      int pocket, const std::optional<Leave>& leave,
                                      std::uint64_t seed);

}  // namespace ahead::coach
