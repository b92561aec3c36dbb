#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <vector>

#include "coach/plan/value_field.h"

/// The next shot of a clearance that is played out, chosen in about a millisecond.
///
/// What the field's nearest places would play is aimed from where the cue ball really lies, the
/// best is varied a little in pace, height and side, and the best few are played some times with
/// the player's errors. Balls that have moved are aimed at afresh.
namespace ahead::coach {

/// The ways of balls as they lie, kept while nothing that matters to them moves.
class FreshWays {
 public:
  /// Of `ball`, by quick gates.
  const std::vector<Way>& of(const Scene& scene, const Position& position, int ball);

 private:
  struct OfBall {
    Position seen;
    std::vector<Way> ways;
  };
  std::map<int, OfBall> balls_;
};

/// Nothing when no ball that is on can be potted. `fresh` belongs to one clearance.
[[nodiscard]] std::optional<Call> quick_choice(const Scene& scene, const ValueField& field,
                                               const Position& position, FreshWays& fresh,
                                               std::uint64_t seed, long& simulated_shots);

}  // namespace ahead::coach
