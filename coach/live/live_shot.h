#pragma once

#include <cstdint>
#include <optional>
#include <variant>

#include "coach/leaves/pot_analysis.h"
#include "coach/pots/prospect.h"

/// One shot, answered while the hand still moves: the path as meant, what the pot is worth, and a
/// coarse picture of what the player's errors make of it.
///
/// The same parts as a plan's shot, with fewer tries; how many stands in every chance. Nothing is
/// ranked and no strike is searched for.
namespace ahead::coach {

/// A ball to pot and where, as indices.
struct MeantPot {
  int ball = 0;
  int pocket = 0;
};

/// A touch to be aimed at the pot. The butt is raised at least by `elevation_rad`.
struct AimedTouch {
  Touch touch;
  double elevation_rad = 0;
};

/// The surest of a few plain touches.
struct PlainTouch {};

struct LiveQuestion {
  std::optional<MeantPot> pot;  ///< needed unless a strike is given
  std::variant<PlainTouch, AimedTouch, engine::Strike> how;
  int tries = 0;
  std::uint64_t seed = 1;
};

struct LivePot {
  std::optional<NoPot> no_pot;
  bool on = false;                    ///< the ball is one that may be potted now
  BallSet blockers = 0;               ///< balls on the pot line that may go before
  std::optional<Gate> gate;           ///< at the pace of the strike, else a medium one
  std::optional<engine::Vec2> ghost;  ///< the cue ball at contact, played plain
  double tangent_rad = 0;             ///< where a stunned cue ball leaves; holds with `ghost`
  double first_order = 0;             ///< chance of the pot (pots/pot_chance.h)
};

struct LiveShot {
  std::optional<LivePot> pot;  ///< when one was meant
  /// Nothing when the pot cannot be aimed; then what follows is empty.
  std::optional<engine::Strike> strike;
  Access access;
  engine::Shot intended;
  Position leaves;                   ///< when it goes as meant
  std::optional<ShotOption> option;  ///< with a pot: facts, and what the tries showed
};

/// `way` is way_to() of the pot, or null without a pot or where no direction drops: it is found
/// once while the cue ball is dragged. Requires a pot, or a strike that does not miscue.
[[nodiscard]] LiveShot live_shot(const Scene& scene, const Position& position,
                                 const LiveQuestion& question, const Way* way);

/// A pot that goes from here, played plainly.
struct PlainPot {
  MeantPot pot;
  engine::Strike strike;
  double first_order = 0;
};

/// Of every ball that is on, likeliest first. Quick gates: good for a hint, not for a figure.
[[nodiscard]] std::vector<PlainPot> plain_pots(const Scene& scene, const Position& position);

}  // namespace ahead::coach
