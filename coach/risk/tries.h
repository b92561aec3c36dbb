#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "coach/access/access.h"
#include "coach/player/scatter.h"
#include "coach/scene.h"

/// A strike played many times with the player's errors, through the full engine.
///
/// The tries of a strike are spread evenly over the player's errors (spread.h), so that a share of
/// them says more than a share of as many random ones; by the same seed rivals meet the same
/// errors, and their difference needs fewer still (common random numbers). Single tries, of which
/// clearances are made, are random and independent. Captured positions are drawn with their
/// uncertainty.
namespace ahead::coach {

/// How one try ended. `verdict` holds for no miscue.
struct Try {
  bool miscued = false;
  Verdict verdict = Verdict::missed;  ///< what a try is that a stop left unplayed
  bool potted = false;                ///< the called ball in the called pocket
  bool thick = false;                 ///< of a miss: the ball was cut too little
  Position leaves;
};

/// A called strike.
struct Call {
  int ball = 0;
  int pocket = 0;
  engine::Strike strike;
  Access access;  ///< how the player makes the strike; its error factor widens the errors
};

/// What the circumstances of the strike do to the player's errors.
[[nodiscard]] Handicapped circumstances(const Call& call);

/// What the player really does in one try.
struct Attempt {
  Position from;          ///< where the balls truly lie
  engine::Strike strike;  ///< the strike that comes out; may miscue
};

/// By itself: stream by stream independent.
[[nodiscard]] Attempt attempt_of(const Scene& scene, const Position& position, const Call& call,
                                 std::uint64_t seed, std::uint64_t stream);

/// One of many that are counted together, the `index`-th.
[[nodiscard]] Attempt spread_attempt(const Scene& scene, const Position& position, const Call& call,
                                     std::uint64_t seed, std::uint64_t index);

/// What becomes of an attempt at `call`.
[[nodiscard]] Try try_of(const Scene& scene, const Position& position, const Call& call,
                         const Attempt& attempt);

/// Of attempt_of().
[[nodiscard]] Try try_once(const Scene& scene, const Position& position, const Call& call,
                           std::uint64_t seed, std::uint64_t stream);

/// Of spread attempts, from the first on.
[[nodiscard]] std::vector<Try> tries_of(const Scene& scene, const Position& position,
                                        const Call& call, int count, std::uint64_t seed);

[[nodiscard]] bool succeeded(const Try& one);

/// Where the tries of a shot went, as fractions that sum to 1.
struct Fates {
  double good = 0;          ///< ball potted, cue ball on the table, visit goes on
  double missed_thick = 0;  ///< cut too little
  double missed_thin = 0;   ///< cut too much
  double in_off = 0;        ///< cue ball potted or off the table
  double wrong_first = 0;   ///< met a ball first that is not on, or no ball
  double black_early = 0;   ///< potted the black, or the wrong ball, when it was not on
  double miscue = 0;        ///< the tip slipped off the ball
};

[[nodiscard]] Fates fates_of(std::span<const Try> tries);

}  // namespace ahead::coach
