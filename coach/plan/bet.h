#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "coach/plan/play_out.h"
#include "coach/plan/safe_play.h"

/// Whether to try to clear, or to play safe.
namespace ahead::coach {

struct Bet {
  /// What the opponent clears, on average, from where played-out clearances broke down.
  double after_failure = 0;
  SafePlay safe;
  double attack = 0;   ///< share_of_wins() of clearing
  double defence = 0;  ///< ... of the safe play; one that pots counts as even until it goes on

  /// Playing safe is clearly better; or clearing is. A share nearer than this tells nothing.
  [[nodiscard]] bool bad() const { return defence > attack + clearly; }
  [[nodiscard]] bool good() const { return attack > defence + clearly; }
  static constexpr double clearly = 0.02;
};

/// `clears` is the chance that `runs`, clearances played out from `position`, have shown; `ways`
/// are those of all balls to clear, measured closely. Nothing when there is no safe play.
[[nodiscard]] std::optional<Bet> bet_of(const Scene& scene, const Position& position,
                                        const Opponent& opponent, std::span<const Way> ways,
                                        double clears, std::span<const Run> runs,
                                        std::uint64_t seed);

/// For a table on which nothing can be potted.
[[nodiscard]] std::optional<SafePlay> only_safe_play(const Layout& layout, const Player& player,
                                                     std::uint64_t seed, int threads);

/// How a frame stands when this visit clears with chance `clears`, when one that ends leaves the
/// opponent to clear with chance `opponent`, and when frames that neither then clears are even (an
/// assumption): the player's share of the wins. P(clear) + P(not) x P(win | what is left), as
/// coaches weigh it (common practice, no source).
[[nodiscard]] constexpr double share_of_wins(double clears, double opponent) {
  return clears + (1 - clears) * (1 - opponent) * 0.5;
}

}  // namespace ahead::coach
