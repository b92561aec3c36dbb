#pragma once

#include <array>
#include <cstddef>

#include "coach/plan/grid.h"
#include "coach/pots/climb.h"
#include "coach/pots/way.h"

/// How much work stands behind a plan, as numbers of simulated shots: answers do not hang on how
/// fast the machine is.
namespace ahead::coach {

enum class Effort { quick, normal, deep };

/// Rivals that are played out, and the tries of each.
struct Round {
  std::size_t rivals = 0;
  int tries = 0;
};

/// How closely the shots from one position are weighed.
struct ShotCare {
  /// Touches to aim at: so many hints of the value field, or all of a fine set when there are none.
  std::size_t hints = 0;
  /// Plants, cannons and doubles are looked for where no direct pot is likelier than this.
  double other_ways_below = 0;
  /// Later rounds have fewer rivals and more tries.
  std::array<Round, 3> rounds{};
  /// After the first round.
  ClimbCare climb;
};

struct Budget {
  Grid grid;  ///< of the value field
  WayCare ways = WayCare::exact;
  ShotCare care;
  int shown_tries = 0;       ///< behind a shown pot chance
  int first_runs = 0;        ///< clearances behind the whole plan's chance
  int later_runs = 0;        ///< ... behind the chance from a later shot on
  bool later_rivals = true;  ///< whether later shots too are given their runner-up
};

/// Deep has ten times the shots of normal.
[[nodiscard]] constexpr Budget budget_of(Effort effort) {
  constexpr double likely = 0.6;
  constexpr double next_to_none = 0.05;
  switch (effort) {
    case Effort::quick:
      return {.grid = coarse_grid,
              .ways = WayCare::quick,
              .care = {.hints = 24,
                       .other_ways_below = next_to_none,
                       .rounds = {{{8, 20}, {4, 60}, {2, 100}}}},
              .shown_tries = 200,
              .first_runs = 8,
              .later_runs = 2,
              .later_rivals = false};
    case Effort::normal:
      break;
    case Effort::deep:
      return {.grid = fine_grid,
              .care = {.other_ways_below = likely,
                       .rounds = {{{48, 200}, {20, 1000}, {8, 2500}}},
                       .climb = {.climbers = 12, .rounds = 7, .tries = 250}},
              .shown_tries = 10000,
              .first_runs = 1000,
              .later_runs = 160};
  }
  return {.grid = fine_grid,
          .care = {.other_ways_below = likely,
                   .rounds = {{{24, 40}, {10, 160}, {4, 400}}},
                   .climb = {.climbers = 6, .rounds = 5, .tries = 100}},
          .shown_tries = 1000,
          .first_runs = 100,
          .later_runs = 16};
}

}  // namespace ahead::coach
