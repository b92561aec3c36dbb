#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "coach/plan/plan.h"
#include "coach/plan/scene.h"

/// A strike played many times with the player's errors, through the full engine.
///
/// Try i draws from stream i of the seed, whatever the strike: rivals meet the same errors, so their
/// difference needs few tries (common random numbers). Captured positions are drawn with their
/// uncertainty.
namespace ahead::coach {

/// How one try ended. `verdict` holds for no miscue.
struct Try {
  bool miscued = false;
  Verdict verdict{};
  bool potted = false;      ///< the called ball in the called pocket
  bool thick = false;       ///< of a miss: the ball was cut too little
  Position leaves;
};

/// A called strike.
struct Call {
  int ball = 0;
  int pocket = 0;
  engine::Strike strike;
};

[[nodiscard]] Try try_once(const Scene& scene, const Position& position, const Call& call,
                           std::uint64_t seed, std::uint64_t stream);

[[nodiscard]] std::vector<Try> tries_of(const Scene& scene, const Position& position,
                                        const Call& call, int count, std::uint64_t seed);

[[nodiscard]] bool succeeded(const Try& one);

[[nodiscard]] Fates fates_of(std::span<const Try> tries);

/// Share with its 95% interval. Source: Wilson, J. Am. Stat. Assoc. 22 (1927) 209.
[[nodiscard]] Chance chance_of(int successes, int trials);

}  // namespace ahead::coach
