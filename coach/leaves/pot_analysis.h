#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "coach/leaves/tolerance.h"
#include "coach/leaves/wanted.h"
#include "coach/pots/prospect.h"
#include "coach/pots/shot_option.h"
#include "coach/pots/way.h"

/// One pot looked at closely: does it go, how wide is the gate, and what can be done with the cue
/// ball.
namespace ahead::coach {

/// How the cue ball comes to its place, seen from the next shot.
struct LineOfPosition {
  double angle_rad = 0;  ///< of its last run with the line to the next ball: 0 along, pi/2 across
  /// Chance of the next pot where it stops as meant, and one sigma short of and past that.
  double as_meant = 0;
  double short_of = 0;
  double past = 0;
};

/// What the strike does for a wanted leave.
struct LeaveFacts {
  Chance lands;  ///< potted and inside; for a next pot: potted, and the next pot potted too
  Tolerances tolerances;
  std::array<Miss, 4> misses;
  std::optional<LineOfPosition> line;  ///< for a next pot
};

struct AnalysedStrike {
  ShotOption option;
  std::optional<LeaveFacts> leave;  ///< when one is wanted
};

/// One strike of the grid that pots the ball when it goes as meant, and what comes of it.
struct ReachableLeave {
  Touch touch;
  double roll_at_contact = 0;  ///< as in CueBallPath: 1 rolls, 0 stun, negative screw
  double pot = 0;              ///< to first order, as in Prospect
  engine::Vec2 rest;           ///< of the cue ball
  BallSet touched = 0;         ///< balls other than the potted one that moved
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
  /// Where a cue ball that rolls at the contact, without side and at a medium pace, goes in the
  /// end, rad; by the engine, for this table's balls.
  double natural_rad = 0;
  Face face;                            ///< of the cue ball, played plain at the ghost ball
  std::vector<AnalysedStrike> strikes;  ///< best first
  std::optional<Wanted> wanted;
  /// What the first strike gives away in the chance to pot and leave, against the likeliest of the
  /// list, for being plainer; 0 when it is the likeliest itself.
  double price_of_plain = 0;
  std::vector<ReachableLeave> reachable;  ///< the whole map, over the grid of leave_touches()
};

/// Without a wanted leave: every touch of a set with this player's errors, by the chance of the
/// pot. With one: the strikes that search_leave() finds for it.
[[nodiscard]] PotAnalysis analyse_pot(const Scene& scene, const Position& position, int ball,
                                      int pocket, const std::optional<Wanted>& wanted,
                                      std::uint64_t seed);

}  // namespace ahead::coach
