#include "coach/plan/bet.h"

#include "coach/rules/colours.h"
#include "coach/threads.h"

namespace ahead::coach {

std::optional<Bet> bet_of(const Scene& scene, const Position& position, const Opponent& opponent,
                          std::span<const Way> ways, double clears, std::span<const Run> runs,
                          std::uint64_t seed) {
  auto safe = safest_play(scene, position, opponent, ways, seed);
  if (!safe) return std::nullopt;
  double sum = 0;
  double failed = 0;
  for (const Run& run : runs) {
    for (const Breakdown& here : run.breakdowns) {
      sum += here.share * (here.foul ? opponent.clears_after_foul(here.left, here.in_hand)
                                     : opponent.clears(here.left));
      failed += here.share;
    }
  }
  Bet bet{.after_failure = failed > 0 ? sum / failed : 0, .safe = *std::move(safe)};
  bet.attack = share_of_wins(clears, bet.after_failure);
  bet.defence = share_of_wins(0, (1 - bet.safe.pots) * bet.safe.clears);
  return bet;
}

std::optional<SafePlay> only_safe_play(const Layout& layout, const Player& player,
                                       std::uint64_t seed, int threads) {
  const ThreadLimit limit(threads);
  // On an open table either colour is on for this shot; the opponent has the choice in any case.
  const Scene scene = scene_of(layout, colours_to_take(layout).front(), player);
  const Position position = position_of(layout);
  const Opponent opponent(layout, scene, position,
                          std::make_shared<const Glance>(scene.field, player));
  return safest_play(scene, position, opponent, ways_to_clear(scene, position, WayCare::exact),
                     seed);
}

}  // namespace ahead::coach
