#include "coach/rules/at_hand.h"

#include <array>

namespace ahead::coach {
namespace {

constexpr Clause unknown_open{"how the colour is decided on an open table is for your rule book",
                              Standing::unseen};

/// In the order of Rules. Source of each: docs/rules.md.
constexpr std::array<RulesAtHand, 5> rows{
    {// international
     {.snooker = SnookerMeans::no_part,
      .snookered = {"no relief for a snooker: a legal shot is still owed", Standing::inferred},
      .touching = {"a rule for touching balls exists, its text was not seen", Standing::unseen},
      .open_table = {"the colour is that of the first legal pot after the break", Standing::read}},
     // world
     {.snooker = SnookerMeans::no_part,
      .snookered = {"totally snookered: only the first contact is owed, no cushion afterwards",
                    Standing::read},
      .touching = {"play away; playing into the touching ball is a foul, playing away from a ball "
                   "on counts as playing it",
                   Standing::read},
      .open_table = {"a colour potted on the break must be nominated; one that was not must be "
                     "potted next",
                     Standing::read}},
     // blackball
     {.snooker = SnookerMeans::no_part,
      .snookered = {"snookered: only the first contact is owed, no cushion afterwards",
                    Standing::read},
      .touching = {"play away from the touching ball; moving it is a foul", Standing::read},
      .open_table = {"a red or a yellow may be hit first; the first legal normal pot of a single "
                     "colour decides",
                     Standing::read}},
     // american-8ball
     {.snooker = SnookerMeans::nothing,
      .snookered = {"a snooker gives no relief", Standing::memory},
      .touching = {"the cue ball may be shot into a touching ball that is on; playing away does "
                   "not count as a hit",
                   Standing::read},
      .open_table = {"the first legal called pot after the break decides", Standing::read}},
     // snooker
     {.snooker = SnookerMeans::both_edges,
      .snookered = {"snookered: no ball on can be struck on both extreme edges; a cushion cannot "
                    "snooker",
                    Standing::read},
      .touching = {"play away; no penalty for not hitting another ball if the touching one is on",
                   Standing::read},
      .open_table = unknown_open}}};

}  // namespace

const RulesAtHand& rules_at_hand(Rules rules) { return rows[static_cast<std::size_t>(rules)]; }

}  // namespace ahead::coach
