#include "lesson/words/bet_words.h"

#include <cmath>

#include <fmt/format.h>

#include "lesson/words/access_words.h"
#include "lesson/words/chance.h"
#include "lesson/words/facts.h"
#include "lesson/words/names.h"
#include "lesson/words/pace.h"

namespace ahead::lesson {
namespace {

/// "red 2, half ball, to its left, struck low at medium pace (1.4 m/s)".
std::string strike_phrase(const coach::Layout& layout, const coach::SafePlay& safe) {
  const StrikeFacts strike = strike_facts(safe.strike, safe.intended, layout.table);
  const std::string thickness = thickness_words(safe.thickness, safe.cut_rad);
  const std::string turn = thickness == "straight"
                               ? ""
                               : fmt::format(", to its {}", safe.cut_to_left ? "left" : "right");
  const std::string to =
      safe.pocket ? " to " + pocket_name(layout.table, *safe.pocket) : std::string{};
  return fmt::format("{}{}, {}{}, struck {} at {} pace ({:.1f} m/s)",
                     ball_name(layout.balls[static_cast<std::size_t>(safe.ball)].id), to, thickness,
                     turn, height_word(strike.height),
                     pace_names[pace_of(strike.cue_ball_speed_mps)], strike.cue_ball_speed_mps);
}

std::string rest_phrase(const engine::Table& table, const coach::SafePlay& safe) {
  const StopFacts stop = stop_facts(table, engine::plan(safe.intended.endings[0].position));
  constexpr double tight_m = 0.010;
  if (stop.gap_m < tight_m) {
    return fmt::format("stops {}, tight on the {} cushion", stop.area, stop.cushion);
  }
  return fmt::format("stops {}, {:.0f} mm off the {} cushion", stop.area,
                     std::round(stop.gap_m * 100) * 10, stop.cushion);
}

}  // namespace

std::string safe_play_words(const coach::Layout& layout, const coach::SafePlay& safe) {
  const std::string foul =
      safe.foul > 0 ? fmt::format("in {} of {} tries", percent_words(safe.foul), safe.tries)
                    : fmt::format("in none of {} tries", safe.tries);
  const std::string caution =
      raised_cue_caution(strike_facts(safe.strike, safe.intended, layout.table).elevation_deg);
  const std::string pot =
      safe.pocket ? fmt::format(" It goes {}.", odds_words(safe.pots)) : std::string{};
  return fmt::format(
      "{}. The cue ball {}.{} {} opponent who plays like this player then clears {} on average "
      "(best direct pot {}); it fouls {}.{}{}",
      capitalised(strike_phrase(layout, safe)), rest_phrase(layout.table, safe), pot,
      safe.pocket ? "When it does not, an" : "An", percent_words(safe.clears),
      percent_words(safe.best_pot), foul, caution.empty() ? "" : " ", caution);
}

std::string bet_words(const coach::Plan& plan) {
  if (!plan.bet) return {};
  const coach::Bet& bet = *plan.bet;
  const std::string clearing = fmt::format(
      "Clearing comes off {}, and where it breaks down the opponent clears {} on average",
      odds_words(plan.clear.value), percent_words(bet.after_failure));
  const std::string shares = fmt::format(
      "Of the frames, counting those that neither then clears as even, {} are won by "
      "clearing and {} by playing safe",
      percent_words(bet.attack), percent_words(bet.defence));
  // Who is told to clear has no use for the other shot.
  if (bet.good()) return fmt::format("Clearing is worth the try. {}. {}.", clearing, shares);
  const std::string safe = safe_play_words(plan.layout, bet.safe);
  if (bet.bad()) {
    return fmt::format("Clearing is a bad bet here. {}. {}. Rather play {}: {}", clearing, shares,
                       bet.safe.pocket ? "a shot to nothing" : "safe", safe);
  }
  return fmt::format("Clearing and playing safe are too close to call. {}. {}. The {}: {}",
                     clearing, shares, bet.safe.pocket ? "shot to nothing" : "safe play", safe);
}

}  // namespace ahead::lesson
