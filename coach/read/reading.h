#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "coach/pots/other_way.h"
#include "coach/pots/sight.h"
#include "coach/read/colour_reading.h"
#include "coach/read/nudge.h"
#include "coach/read/opening.h"
#include "coach/read/region.h"
#include "coach/rules/at_hand.h"

/// The table as an expert reads it before the first shot: where each ball goes, which are problems
/// and what frees them, which are insurance, which colour, and what can be hit at all. Values only;
/// SI. Balls are indices into the layout, pockets into its table.
namespace ahead::coach {

/// One ball, one pocket, and the cue ball.
struct PocketReading {
  Opening opening;
  std::vector<bool> region;  ///< one flag a place of the reading's grid
  double share = 0;          ///< of the free places
  LineUp from_here;          ///< the cue ball as it lies, if the ball has an opening

  /// Other balls leave less than a third of its gate.
  [[nodiscard]] bool narrow() const;
  /// It has an opening, and there are places from which the cue ball pots it there.
  [[nodiscard]] bool goes() const { return opening.goes() && share > 0; }
};

/// A ball is a problem when it goes nowhere, or from `few_places` of the bed (plan/moment.h), or is
/// tight on a cushion, or is hampered by a neighbour (common practice, no source). It is insurance
/// when it is no problem and goes to two pockets or more, from `most_places`.
///
/// Balls with less room than this between them are neighbours, m: half a ball. They hamper a ball
/// that goes from less than `most_places`.
inline constexpr double cluster_m = 0.0254;

struct BallReading {
  int ball = 0;
  std::vector<PocketReading> pockets;  ///< all of the table's
  double share = 0;                    ///< of places from which it goes to one pocket at least
  std::vector<OtherWay> other_ways;    ///< from here, best first; none unless the ball is on
  double cushion_room_m = 0;
  std::vector<int> neighbours;  ///< within `cluster_m`
  bool problem = false;
  bool insurance = false;         ///< never the black
  std::optional<Nudge> freed_by;  ///< of a problem ball

  [[nodiscard]] int ways() const;  ///< pockets that it goes to
  [[nodiscard]] int ways_from_here() const;
};

struct Reading {
  Layout layout;
  Player player;
  Places places;
  BallSet on = 0;                      ///< balls that may be hit first, of either colour when open
  std::vector<BallReading> balls;      ///< every ball but the cue ball
  std::vector<Sight> sights;           ///< in the same order
  bool snookered = false;              ///< no part of any ball on can be met in a straight line
  bool edges_hidden = false;           ///< no ball on can be met on both of its finest cuts
  std::vector<ColourReading> colours;  ///< the choice, best first; one when it is made
  std::uint64_t seed = 1;

  [[nodiscard]] const BallReading& of(int ball) const;
};

/// Whether the clearances played out tell the two apart: each share lies outside the other's
/// interval.
[[nodiscard]] bool told_apart(const ColourReading& one, const ColourReading& other);

/// The balls alone, a tenth of the work: without other ways and what frees a problem ball. Requires
/// a valid layout.
[[nodiscard]] std::vector<BallReading> read_balls(const Layout& layout);

/// Requires a valid layout with a ball to clear.
[[nodiscard]] Reading read_table(const Layout& layout, const Player& player, std::uint64_t seed);

}  // namespace ahead::coach
