#include "lesson/words/plan_words.h"

#include <numbers>
#include <string_view>

#include <fmt/format.h>

#include "lesson/words/bet_words.h"
#include "lesson/words/chance.h"
#include "lesson/words/names.h"

namespace ahead::lesson {
namespace {

using coach::Chance;
using coach::Plan;

bool apart(const Chance& a, const Chance& b) { return a.low > b.high || b.low > a.high; }

std::string colour_sentences(const Plan& plan) {
  const coach::ColourChoice* chosen = nullptr;
  const coach::ColourChoice* other = nullptr;
  for (const coach::ColourChoice& each : plan.weighed) {
    (each.colour == plan.colour ? chosen : other) = &each;
  }
  if (chosen == nullptr || other == nullptr) return {};
  std::string figures = fmt::format("Play the {}: they clear {}, the {} {}.",
                                    group_name(chosen->colour), chance_words(chosen->clear),
                                    group_name(other->colour), chance_words(other->clear));
  if (!apart(chosen->clear, other->clear)) {
    figures += " The tries cannot tell the two apart; the better figure was taken.";
  }
  return figures;
}

std::string order_sentence(const Plan& plan) {
  std::vector<std::string> names;
  for (const coach::PlannedShot& shot : plan.shots) {
    names.push_back(fmt::format(
        "{} to {}", ball_name(shot.before.balls[static_cast<std::size_t>(shot.best.ball)].id),
        pocket_name(shot.before.table, shot.best.pocket)));
  }
  return fmt::format("In this order: {}.", listed(names));
}

}  // namespace

PlanWords plan_words(const Plan& plan) {
  const std::size_t count = plan.shots.size();
  // A snooker player's colours include the black.
  const bool black_within =
      plan.colour == coach::ToPlay::black || plan.colour == coach::ToPlay::colours;
  const std::string_view verb = plan.complete ? "Clearing" : "A start on clearing";
  return {.title = fmt::format("{} the {}{}: {} shot{}", verb, group_name(plan.colour),
                               black_within ? "" : " and the black", count, count == 1 ? "" : "s"),
          .colour = colour_sentences(plan),
          .chance = fmt::format("The whole clearance succeeds {} for this player.",
                                chance_words(plan.clear)),
          .bet = bet_words(plan),
          .order = order_sentence(plan),
          .honesty = fmt::format(
              "The choice is made for this player's errors, one sigma: direction {:.2f} degrees, "
              "pace {:.0f}%, tip height {:.1f} mm. Chances hold for them and for this table's "
              "figures; they are no substitute for a coach.",
              plan.player.direction_rad.sigma * 180 / std::numbers::pi,
              100 * plan.player.pace.sigma, 1000 * plan.player.tip_height_m.sigma)};
}

std::vector<std::string> sentences(const PlanWords& words) {
  std::vector<std::string> all{words.title};
  for (const std::string* each :
       {&words.colour, &words.chance, &words.bet, &words.order, &words.honesty}) {
    if (!each->empty()) all.push_back(*each);
  }
  return all;
}

}  // namespace ahead::lesson
