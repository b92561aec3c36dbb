#include "lesson/words/rule_words.h"

#include <algorithm>

#include <fmt/format.h>

#include "formats/names.h"
#include "lesson/words/chance.h"
#include "lesson/words/names.h"

namespace ahead::lesson {
namespace {

using coach::Reading;
using coach::Sight;
using coach::Standing;

std::string name(const Reading& reading, int ball) {
  return ball_name(reading.layout.balls[static_cast<std::size_t>(ball)].id);
}

std::string names(const Reading& reading, const std::vector<int>& balls) {
  std::vector<std::string> all;
  for (const int ball : balls) all.push_back(name(reading, ball));
  return listed(all);
}

std::string_view standing_words(Standing standing) {
  switch (standing) {
    case Standing::read:
      return "read in a league's or federation's copy";
    case Standing::memory:
      return "from memory, unverified";
    case Standing::inferred:
      return "inferred, unverified";
    case Standing::unseen:
      break;
  }
  return "unverified";
}

std::string clause_words(const Reading& reading, const coach::Clause& clause) {
  return fmt::format("{} rules: {} ({}).",
                     capitalised(std::string(formats::name_of(reading.layout.rules))), clause.text,
                     standing_words(clause.standing));
}

}  // namespace

std::vector<std::string> rule_words(const Reading& reading) {
  const coach::RulesAtHand& rules = coach::rules_at_hand(reading.layout.rules);
  std::vector<std::string> words;
  std::vector<int> open;
  std::vector<int> partly;
  std::vector<int> hidden;
  std::vector<int> touching;
  for (const Sight& sight : reading.sights) {
    if (sight.touching) touching.push_back(sight.ball);
    if (!coach::has(reading.on, sight.ball)) continue;
    if (sight.hidden()) {
      hidden.push_back(sight.ball);
    } else {
      (sight.seen > 0.99 || sight.touching ? open : partly).push_back(sight.ball);
    }
  }
  if (reading.layout.to_play == coach::ToPlay::open) {
    words.push_back("Open table. " + clause_words(reading, rules.open_table));
  }
  if (reading.snookered) {
    std::vector<int> by;
    for (const Sight& sight : reading.sights) {
      if (!coach::has(reading.on, sight.ball)) continue;
      for (const int other : sight.hidden_by) {
        if (std::ranges::find(by, other) == by.end()) by.push_back(other);
      }
    }
    words.push_back(fmt::format("Total snooker: no ball on can be met in a straight line{}. {}",
                                by.empty() ? "" : ", behind " + names(reading, by),
                                clause_words(reading, rules.snookered)));
  } else {
    std::string line = "Balls on that can be met: ";
    if (!open.empty()) line += names(reading, open) + " in full";
    if (!partly.empty()) {
      line += fmt::format("{}{} in part", open.empty() ? "" : "; ", names(reading, partly));
    }
    if (!hidden.empty()) line += fmt::format("; hidden: {}", names(reading, hidden));
    words.push_back(line + ".");
    if (reading.edges_hidden && rules.snooker == coach::SnookerMeans::both_edges) {
      words.push_back("Snookered: no ball on can be met on both edges. " +
                      clause_words(reading, rules.snookered));
    }
  }
  if (!touching.empty()) {
    words.push_back(fmt::format("Touching ball: the cue ball touches {}. {}",
                                names(reading, touching), clause_words(reading, rules.touching)));
  }
  return words;
}

}  // namespace ahead::lesson
