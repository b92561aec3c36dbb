#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "coach/access/face.h"
#include "coach/pots/course.h"
#include "coach/risk/chance.h"
#include "coach/risk/tries.h"
#include "coach/scene.h"

/// One way to play from a position: a ball, a pocket, a strike, and what comes of it.
/// SI. Balls are counted among those present, as in the layout of the position
/// (PlannedShot::before); pockets as in the table.
namespace ahead::coach {

/// How the cue ball travels in the intended shot.
struct CueBallPath {
  double speed_at_contact_mps = 0;
  double roll_at_contact = 0;  ///< R w / v along the path: 1 rolls, 0 stun, negative screw
  double side_at_contact = 0;  ///< R w_z / v: positive is side on the right of the ball
  int cushions_before = 0;     ///< met before the object ball
  int cushions_after = 0;
  bool running_side = false;  ///< at the first cushion after contact, side that speeds it up
  bool check_side = false;    ///< ... that slows it down
  double travel_after_m = 0;  ///< from contact to rest
  engine::Vec2 rest;          ///< where it stops
  std::vector<int> meets;     ///< other balls that it touches after contact, in order
};

/// Roll of a ball along its travel: R w / v; 1 rolls, 0 stun, negative screw; 0 for a ball at rest.
[[nodiscard]] double roll_of(const engine::BallState& state, const engine::Ball& ball);

struct ShotOption {
  int ball = 0;  ///< to pot
  int pocket = 0;
  std::optional<Indirect> indirect;  ///< when it is not hit first, or goes off a cushion
  engine::Strike strike;
  Access access;  ///< how this player makes the strike
  Face face;      ///< what of the cue ball's face the player reaches on this aim
  // At the ball that is hit first:
  double cut_rad = 0;        ///< between line of aim and line of centres, 0 to pi/2
  bool cut_to_left = false;  ///< it leaves to the left of the line of aim
  double thickness = 0;      ///< overlap seen along the line of aim, 0 (miss) to 1 (full)
  double to_ball_m = 0;      ///< cue ball to contact place
  double to_pocket_m = 0;    ///< from the ball to pot to the pocket
  Chance pot;                ///< the ball drops in the named pocket
  Chance clear;              ///< the table is cleared from here, this shot included
  Fates fates;
  double next_pot = 0;  ///< of the best next pot, mean over good tries; 1 after the last
  CueBallPath cue_path;
  std::vector<engine::Vec2> landings;  ///< where the cue ball stopped, over the good tries
  engine::Shot intended;               ///< the shot played without error
};

/// The facts that follow from the strike played without error: thickness, distances, the cue ball's
/// path; and how it is reached. Chances are left empty.
[[nodiscard]] ShotOption described(const Scene& scene, const Position& position, const Call& call);

/// The same without the face, whose access takes longer than all the rest together.
[[nodiscard]] ShotOption described_but_face(const Scene& scene, const Position& position,
                                            const Call& call);

/// The ball of `option` that the cue ball is to hit first, counted as there.
[[nodiscard]] int hit_first(const ShotOption& option);

/// How the ball that `option`'s intended shot pots comes to its pocket. `at` is where the balls
/// lie.
[[nodiscard]] std::optional<Indirect> indirect_of(const ShotOption& option,
                                                  const engine::Table& table,
                                                  std::span<const engine::Vec2> at);

/// Puts in what `tries` of this option have shown: the chance of the pot, fates, landings.
void add_tries(ShotOption& option, std::span<const Try> tries);

}  // namespace ahead::coach
