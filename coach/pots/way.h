#pragma once

#include <optional>
#include <vector>

#include "coach/pots/gate.h"
#include "coach/scene.h"

/// The ways in which a ball can be potted directly: its pockets, as the balls stand.
namespace ahead::coach {

struct Way {
  int ball = 0;
  int pocket = 0;
  PotGates gates;        ///< past the balls that will not go before this one
  BallSet blockers = 0;  ///< balls on the pot line that may go before
};

/// The pockets that `ball` goes to, with gates at all paces.
[[nodiscard]] std::vector<Way> ways_of(const Scene& scene, const Position& position, int ball);

/// The one to that pocket, or nothing. Does not hang on where the cue ball lies.
[[nodiscard]] std::optional<Way> way_to(const Scene& scene, const Position& position, int ball,
                                        int pocket);

/// The same in passing: quick gates, at a medium pace only.
[[nodiscard]] std::vector<Way> quick_ways_of(const Scene& scene, const Position& position,
                                             int ball);

/// Those of all balls that are to be cleared, in rising order, closely or in passing; on as many
/// threads as the caller's arena allows.
enum class WayCare { quick, exact };
[[nodiscard]] std::vector<Way> ways_to_clear(const Scene& scene, const Position& position,
                                             WayCare care);

}  // namespace ahead::coach
