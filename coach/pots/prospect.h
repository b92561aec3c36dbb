#pragma once

#include <optional>

#include "coach/access/access.h"
#include "coach/pots/pot_chance.h"
#include "coach/pots/way.h"
#include "coach/risk/tries.h"

/// A strike weighed without error: aimed, its pot chance to first order, and where it leaves the
/// balls when it goes as meant.
namespace ahead::coach {

struct Prospect {
  int ball = 0;
  int pocket = 0;
  engine::Strike strike;
  Access access;
  double pot = 0;
  Position leaves;      ///< after the shot as meant
  engine::Vec2 drift;   ///< one sigma of the cue ball's stopping place along its last run
  BallSet touched = 0;  ///< balls other than the potted one that moved
};

[[nodiscard]] Call call_of(const Prospect& prospect);

/// Touch and pace of a strike; aim and elevation follow from the pot.
struct Touch {
  double side = 0;
  double height = 0;
  double cue_speed_mps = 0;
};

/// A pot with less chance than this is not worth its simulation.
inline constexpr double hopeless_pot = 0.02;

/// A strike with the touch that was asked for, aimed through a way's gates.
struct AimedCall {
  Call call;
  Aim aim;
};

/// Nothing when there is no such aim or the player cannot make the strike.
[[nodiscard]] std::optional<AimedCall> aimed_call(const Scene& scene, const Position& position,
                                                  const Way& way, const Touch& touch);

/// The strike with this touch for this way, if the player can make it, the pot is not hopeless, the
/// ball drops as meant and the visit goes on.
[[nodiscard]] std::optional<Prospect> prospect_of(const Scene& scene, const Position& position,
                                                  const Way& way, const Touch& touch);
/// The same for a strike whose chance is known.
[[nodiscard]] std::optional<Prospect> prospect_of(const Scene& scene, const Position& position,
                                                  const Call& call, double pot);

}  // namespace ahead::coach
