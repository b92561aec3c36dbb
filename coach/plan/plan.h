#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "coach/layout.h"
#include "coach/player/player.h"
#include "engine/contact/strike.h"
#include "engine/simulate/shot.h"

/// What the planner answers: values only, every figure estimated from simulated shots.
/// Units: SI. Balls of a shot are indices into the balls of the layout before it, pockets into the
/// table's pockets.
namespace ahead::coach {

/// A chance that was estimated by playing out, with its 95% interval.
struct Chance {
  double value = 0;
  double low = 0;
  double high = 1;
  int trials = 0;
};

/// Where the tries of a shot went, as fractions that sum to 1.
struct Fates {
  double good = 0;         ///< ball potted, cue ball on the table, visit goes on
  double missed_thick = 0; ///< cut too little
  double missed_thin = 0;  ///< cut too much
  double in_off = 0;       ///< cue ball potted or off the table
  double wrong_first = 0;  ///< met a ball first that is not on, or no ball
  double black_early = 0;  ///< potted the black, or the wrong ball, when it was not on
  double miscue = 0;       ///< the tip slipped off the ball
};

/// How the cue ball travels in the intended shot.
struct CueBallPath {
  double speed_at_contact_mps = 0;
  double roll_at_contact = 0;      ///< R w / v along the path: 1 rolls, 0 stun, negative screw
  double side_at_contact = 0;      ///< R w_z / v: positive is side on the right of the ball
  int cushions_before = 0;         ///< met before the object ball
  int cushions_after = 0;
  bool running_side = false;       ///< at the first cushion after contact, side that speeds it up
  bool check_side = false;         ///< ... that slows it down
  double travel_after_m = 0;       ///< from contact to rest
  engine::Vec2 rest;               ///< where it stops
  std::vector<int> meets;          ///< other balls that it touches after contact, in order
};

/// One way to play from a layout: a ball, a pocket, a strike, and what comes of it.
struct ShotOption {
  int ball = 0;
  int pocket = 0;
  engine::Strike strike;
  double cut_rad = 0;              ///< between line of aim and line of centres, 0 to pi/2
  bool cut_to_left = false;        ///< the object ball leaves to the left of the line of aim
  double thickness = 0;            ///< overlap seen along the line of aim, 0 (miss) to 1 (full)
  double to_ball_m = 0;            ///< cue ball to contact place
  double to_pocket_m = 0;          ///< object ball to pocket
  Chance pot;                      ///< the ball drops in the named pocket
  Chance clear;                    ///< the table is cleared from here, this shot included
  Fates fates;
  double next_pot = 0;             ///< of the best next pot, mean over good tries; 1 after the last
  CueBallPath cue_path;
  std::vector<engine::Vec2> landings;  ///< where the cue ball stopped, over the good tries
  engine::Shot intended;           ///< the shot played without error
};

/// Why the runner-up lost, by the largest loss.
enum class WhyLost { harder_pot, more_fouls, worse_position, too_close_to_call };

struct PlannedShot {
  Layout before;
  ShotOption best;
  std::optional<ShotOption> runner_up;
  WhyLost why_lost{};
};

/// A colour that was weighed on an open table.
struct ColourChoice {
  ToPlay colour{};
  Chance clear;
};

struct Plan {
  Layout layout;
  Player player;
  ToPlay colour{};                     ///< the colour played: chosen when the table was open
  std::vector<ColourChoice> weighed;   ///< on an open table, both colours
  std::vector<PlannedShot> shots;      ///< each from where the intended shot before it left the balls
  bool complete = false;               ///< the shots lead to the last ball
  Chance clear;                        ///< of the whole clearance
  std::uint64_t seed = 1;
  long simulated_shots = 0;            ///< work done
};

}  // namespace ahead::coach
