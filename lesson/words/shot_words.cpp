#include "lesson/words/shot_words.h"

#include <array>
#include <cmath>

#include <fmt/format.h>

#include "lesson/words/chance.h"
#include "lesson/words/names.h"
#include "lesson/words/pace.h"

namespace ahead::lesson {
namespace {

std::string pot(const OptionFacts& option) {
  return fmt::format("{} to {}{}{}", capitalised(option.ball), option.pocket,
                     option.by.empty() ? "" : " ", option.by);
}

std::string headline(const OptionFacts& option) {
  return fmt::format("{}, {}{}{}", pot(option), option.hit_first,
                     option.hit_first.empty() ? "" : " ", option.thickness);
}

std::string strike_sentence(const ShotFacts& facts) {
  const StrikeFacts& strike = facts.best.strike;
  const std::string pace{pace_names[pace_of(strike.cue_ball_speed_mps)]};
  const std::string run = table_lengths(facts.travel_after_m, facts.table_length_m);
  return fmt::format(
      "Strike {}. {} pace: the cue ball leaves the tip at {:.1f} m/s and runs {} after the "
      "contact.",
      where_to_strike(strike), capitalised(pace), strike.cue_ball_speed_mps, run);
}

/// What the cue ball's rotation is when it meets the object ball. R w / v: 1 rolls, 0 slides.
std::string arrival(const ShotFacts& facts) {
  const double roll = facts.roll_at_contact;
  const bool dragged = facts.best.strike.height < -0.1 && roll > 0.9 &&
                       facts.speed_at_contact_mps < 0.7 * facts.best.strike.cue_ball_speed_mps;
  if (dragged) return "slides first and arrives rolling, a drag shot";
  if (roll > 0.9) return "arrives rolling, so it follows";
  if (roll > 0.2) return "arrives with a little forward roll, a stun-run-through";
  if (roll >= -0.2) return "arrives with no roll either way, a stun";
  if (roll > -0.8) return "arrives with back spin, a screw";
  return "arrives with strong back spin, a deep screw";
}

/// A strike that is not called one with side still picks some up from the object ball.
std::string side_at_the_cushion(const ShotFacts& facts) {
  if (!facts.running_side && !facts.check_side) return {};
  if (side_words(facts.best.strike.side).empty()) {
    return fmt::format(", where a trace of side, picked up on the way, {} its angle a little",
                       facts.running_side ? "widens" : "narrows");
  }
  return facts.running_side ? ", where running side widens its angle and keeps its pace"
                            : ", where check side narrows its angle and takes pace off";
}

/// "meets the top and the left cushions, ..."; what it touches comes after, in no stated order.
std::string meetings(const ShotFacts& facts) {
  if (facts.cushions.empty() && facts.meets.empty()) return "meets nothing more";
  std::string words;
  if (!facts.cushions.empty()) {
    std::vector<std::string> named;
    for (const std::string& name : facts.cushions) named.push_back("the " + name);
    words = fmt::format("meets {} cushion{}", listed(named), named.size() > 1 ? "s" : "");
    words += side_at_the_cushion(facts);
  }
  if (facts.meets.empty()) return words;
  return fmt::format("{}{}touches {} on its way", words, words.empty() ? "" : ", ",
                     listed(facts.meets));
}

std::string stop_words(const ShotFacts& facts) {
  constexpr double tight_m = 0.010;
  constexpr double near_m = 0.150;
  const StopFacts& stop = facts.stop;
  std::string words = fmt::format("stops {}", stop.area);
  if (stop.gap_m < tight_m) {
    words += fmt::format(", tight on the {} cushion", stop.cushion);
  } else if (stop.gap_m < near_m) {
    words += fmt::format(", {:.0f} mm off the {} cushion", std::round(stop.gap_m * 100) * 10,
                         stop.cushion);
  }
  if (!stop.next_ball.empty()) {
    words += stop.to_next_m < 1 ? fmt::format(", {:.0f} mm from {}",
                                              std::round(stop.to_next_m * 100) * 10, stop.next_ball)
                                : fmt::format(", {:.1f} m from {}", stop.to_next_m, stop.next_ball);
  }
  return words;
}

std::string cue_ball_sentences(const ShotFacts& facts) {
  const std::string met = meetings(facts);
  return fmt::format("The cue ball {}. After the contact it {}{} {}.", arrival(facts), met,
                     met.find(',') == std::string::npos ? " and" : ", and", stop_words(facts));
}

std::string chance_sentence(const ShotFacts& facts) {
  if (!facts.next) return fmt::format("The pot succeeds {}.", chance_words(facts.best.pot));
  return fmt::format("The pot succeeds {}; the table is cleared from here {}.",
                     chance_words(facts.best.pot), chance_words(facts.best.clear));
}

/// Why this ball, and why now; nothing for most shots.
std::string moment_sentences(const ShotFacts& facts) {
  const MomentFacts& moment = facts.moment;
  std::string words;
  if (moment.key_ball) {
    words += fmt::format("{} is the key ball, kept to lead to the black. ",
                         capitalised(facts.best.ball));
  }
  if (moment.problem) {
    words += fmt::format(
        "{} is a problem ball, which goes from {} of the table{}. ",
        moment.key_ball ? "It" : capitalised(facts.best.ball),
        moment.goes_from > 0 ? "only " + percent_words(moment.goes_from) : "none",
        moment.cover.empty() ? "" : fmt::format("; {} stays as insurance", moment.cover));
  }
  if (!moment.frees.empty()) {
    words += fmt::format("On its way it frees {}, which nothing could pot. ", listed(moment.frees));
  }
  return words;
}

std::string leave_sentence(const ShotFacts& facts) {
  if (!facts.next && !facts.ends_clearance) {
    return "From where it leaves the balls when it goes as meant, no ball that is on can be potted "
           "directly: the clearance waits for another leave, or for a safety.";
  }
  if (!facts.next) {
    return "Nothing follows: only the pot counts, and that the cue ball stays on the table.";
  }
  const std::string next =
      fmt::format("{} to {}, {}", facts.next->ball, facts.next->pocket, facts.next->thickness);
  const std::string odds = average_words(facts.best.next_pot);
  const std::array variants{
      fmt::format("This leaves {}. When the pot succeeds, the best next pot is, on average, {}.",
                  next, odds),
      fmt::format(
          "The leave is for {}: the best next pot is, on average, {} when this one succeeds.", next,
          odds)};
  return variants[facts.order % variants.size()];
}

std::string why_sentence(const ShotFacts& facts) {
  return moment_sentences(facts) + leave_sentence(facts);
}

std::string risk_sentence(const ShotFacts& facts) {
  if (facts.risks.empty()) return "Nothing went wrong in more than 1 in 200 tries.";
  std::vector<std::string> named;
  for (const Risk& risk : facts.risks) {
    named.push_back(fmt::format("{} {}", risk.words, odds_words(risk.chance)));
  }
  std::string words = fmt::format("What goes wrong: {}.", listed(named));
  // One side of the pocket being twice as likely is worth saying; less is within the noise.
  if (facts.missed_thin > 2 * facts.missed_thick && facts.missed_thin >= 0.02) {
    words += " Most misses are thin.";
  } else if (facts.missed_thick > 2 * facts.missed_thin && facts.missed_thick >= 0.02) {
    words += " Most misses are thick.";
  }
  return words;
}

std::string reason(const ShotFacts& facts, const OptionFacts& other) {
  if (facts.runner_up_is_better) return "By the tries it is the better shot.";
  const OptionFacts& best = facts.best;
  const auto against = [](double a, double b) {
    return fmt::format("{} against {}", percent_words(a), percent_words(b));
  };
  switch (facts.why_lost) {
    case coach::WhyLost::harder_pot:
      return fmt::format("It lost because the pot is harder: {}.",
                         against(other.pot.value, best.pot.value));
    case coach::WhyLost::more_fouls:
      return fmt::format("It lost because it fouls more often: {}.",
                         against(other.fouls, best.fouls));
    case coach::WhyLost::worse_position:
      return fmt::format("It lost because it leaves less: the best next pot averages {}.",
                         against(other.next_pot, best.next_pot));
    case coach::WhyLost::worse_rest:
      return "It lost because the rest is harder from there: it strands more clearances.";
    case coach::WhyLost::too_close_to_call:
      break;
  }
  return "The tries cannot tell the two apart.";
}

/// From here a cue counts as raised (common practice).
constexpr double raised_deg = 15;

std::string runner_up_sentences(const ShotFacts& facts) {
  if (!facts.runner_up) return {};
  const OptionFacts& other = *facts.runner_up;
  const std::string_view pace = pace_names[pace_of(other.strike.cue_ball_speed_mps)];
  const std::string side = side_words(other.strike.side);
  const std::string how =
      fmt::format("struck {}{}, {} pace ({:.1f} m/s)", height_word(other.strike.height),
                  side.empty() ? "" : " with " + side, pace, other.strike.cue_ball_speed_mps);
  const std::string raised = other.strike.elevation_deg < raised_deg
                                 ? ""
                                 : fmt::format(", cue raised {:.0f}°", other.strike.elevation_deg);
  const std::string what = facts.runner_up_same_pot ? "the same pot" : headline(other);
  return fmt::format("{}, {}{}. It clears {}, against {} for the choice. {}", capitalised(what),
                     how, raised, percent_words(other.clear.value),
                     percent_words(facts.best.clear.value), reason(facts, other));
}

}  // namespace

ShotWords words_of(const ShotFacts& facts) {
  return {.pot = pot(facts.best),
          .headline = headline(facts.best),
          .strike = strike_sentence(facts),
          .access = access_sentence(facts.access),
          .cue_ball = cue_ball_sentences(facts),
          .why = why_sentence(facts),
          .chance = chance_sentence(facts),
          .risk = risk_sentence(facts),
          .runner_up = runner_up_sentences(facts),
          .caution = raised_cue_caution(facts.best.strike.elevation_deg)};
}

ShotWords shot_words(const coach::Plan& plan, std::size_t shot) {
  return words_of(shot_facts(plan, shot));
}

std::vector<std::string> sentences(const ShotWords& words) {
  std::vector<std::string> all{words.headline, words.strike};
  if (!words.access.empty()) all.push_back(words.access);
  for (const std::string* each : {&words.cue_ball, &words.why, &words.chance, &words.risk}) {
    all.push_back(*each);
  }
  if (!words.caution.empty()) all.push_back(words.caution);
  if (!words.runner_up.empty()) all.push_back("Runner-up: " + words.runner_up);
  return all;
}

}  // namespace ahead::lesson
