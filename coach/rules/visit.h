#pragma once

#include <cstdint>
#include <vector>

#include "coach/layout.h"
#include "engine/simulate/shot.h"

/// What a visit asks for, and what a shot makes of it.
///
/// Only what decides whether the visit goes on: which balls are on, what must not be potted, the
/// black last. Fouls that a clearance cannot meet by itself (cushion duty after a miss) end the
/// visit in any case. Source: docs/rules.md.
namespace ahead::coach {

/// Balls as bits: bit i is ball i of the layout.
using BallSet = std::uint32_t;

[[nodiscard]] constexpr BallSet bit(int ball) { return BallSet{1} << static_cast<unsigned>(ball); }
[[nodiscard]] constexpr bool has(BallSet set, int ball) { return (set & bit(ball)) != 0; }

/// What the player has to clear, in the terms of one layout.
struct Task {
  Rules rules{};
  ToPlay colour{};              ///< never open
  std::vector<Colour> colours;  ///< of every ball of the layout
  BallSet own = 0;              ///< balls to clear before the black (snooker: all, in order)
  BallSet black = 0;            ///< the last ball, or none
};

/// The colour that is played with `ball`: the layout's or, on an open table, that of the ball.
[[nodiscard]] ToPlay colour_played(const Layout& layout, int ball);

/// What there is to clear in `layout` for a player whose colour is `colour`: the black, once the
/// last ball of the colour has gone.
[[nodiscard]] ToPlay left_to_play(const Layout& layout, ToPlay colour);

/// The task when the player takes `colour`. Requires a colour that suits the layout's rules.
[[nodiscard]] Task task_of(const Layout& layout, ToPlay colour);

/// The balls that may be hit first and potted next, of those `present`.
[[nodiscard]] BallSet balls_on(const Task& task, BallSet present);

/// What a shot came to.
enum class Verdict {
  cleared,       ///< the last ball went, legally
  goes_on,       ///< a ball on was potted, legally
  missed,        ///< nothing that counts was potted
  in_off,        ///< the cue ball was potted or left the table
  wrong_first,   ///< first contact with a ball that is not on, or with none
  wrong_potted,  ///< the black early, or a ball that makes the pot a foul
};

/// Judges a shot. `indices` gives, for each ball of the shot, its index in the layout; `present`
/// are the balls before the shot; `ball` and `pocket` are the called ones (they matter where the
/// rules ask for a call).
[[nodiscard]] Verdict judge(const Task& task, const engine::Shot& shot,
                            const std::vector<int>& indices, BallSet present, int ball, int pocket);

}  // namespace ahead::coach
