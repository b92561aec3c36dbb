#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "coach/plan/glance.h"
#include "coach/read/region.h"
#include "coach/risk/chance.h"
#include "coach/scene.h"

/// What one colour asks for: its black, its key ball, and how often it is cleared from here.
namespace ahead::coach {

struct BlackPocket {
  int pocket = 0;
  double share = 0;  ///< of the bed's places from which the black goes there
};

/// A ball as the one to leave for last.
struct KeyBall {
  int ball = 0;
  /// Chance of the black once this ball is potted, mean over the places of the cue ball, each
  /// weighted by the chance of potting this ball from there: the planner's guide
  /// (plan/value_field.h), good for comparing, not played out.
  double black_after = 0;
};

struct FirstPot {
  int ball = 0;
  int pocket = 0;
  double pot = 0;  ///< to first order
};

struct ColourReading {
  ToPlay colour{};
  BallSet own = 0;
  std::vector<int> problems;       ///< its balls, the black among them, worst first
  std::vector<int> insurance;      ///< most places first
  std::vector<BlackPocket> black;  ///< with the colour's own balls gone, most places first
  std::vector<KeyBall>
      keys;  ///< best first, problem balls last; empty when none precedes the black
  std::optional<FirstPot> first;  ///< what the planner would play now
  Chance clear;                   ///< clearances played out from here
  double guide = 0;               ///< the planner's worth of that first shot, not played out
};

/// The part that needs the planner, with quick effort: black, keys, first pot and chance. `scene`
/// is that of the colour, `glance` of its table and player.
[[nodiscard]] ColourReading read_colour(const Scene& scene, const Position& position,
                                        const std::shared_ptr<const Glance>& glance,
                                        const Places& places, std::uint64_t seed);

}  // namespace ahead::coach
