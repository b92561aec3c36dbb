#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "coach/layout.h"
#include "coach/plan/bet.h"
#include "coach/plan/effort.h"
#include "coach/plan/moment.h"
#include "coach/player/player.h"
#include "coach/pots/shot_option.h"

/// What the planner answers: values only, every figure estimated from simulated shots.
/// Units: SI. Balls of a shot are indices into the balls of the layout before it, pockets into the
/// table's pockets.
namespace ahead::coach {

/// Why the runner-up lost, by the largest loss.
enum class WhyLost {
  harder_pot,
  more_fouls,
  worse_position,
  worse_rest,  ///< neither of these: the clearances played out from there break down more often
  too_close_to_call
};

struct PlannedShot {
  Layout before;
  ShotOption best;
  std::optional<ShotOption> runner_up;
  WhyLost why_lost{};
  Moment moment;
};

/// A colour that was weighed on an open table.
struct ColourChoice {
  ToPlay colour{};
  Chance clear;
};

struct Plan {
  Layout layout;
  Player player;
  ToPlay colour{};                    ///< the colour played: chosen when the table was open
  std::vector<ColourChoice> weighed;  ///< on an open table, both colours
  std::vector<PlannedShot> shots;  ///< each from where the intended shot before it left the balls
  bool complete = false;           ///< the shots lead to the last ball
  Effort effort = Effort::normal;  ///< how much work stands behind the figures
  bool partial = false;            ///< it was stopped before the effort that was asked for
  Chance clear;                    ///< of the whole clearance
  /// Against playing safe: weighed where clearing is not the clear choice, with normal effort or
  /// more.
  std::optional<Bet> bet;
  std::uint64_t seed = 1;
  long simulated_shots = 0;  ///< work done
};

}  // namespace ahead::coach
