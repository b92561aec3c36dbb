#include "lesson/words/reading_words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "coach/plan/moment.h"
#include "lesson/words/chance.h"
#include "lesson/words/names.h"
#include "lesson/words/rule_words.h"

namespace ahead::lesson {
namespace {

using coach::BallReading;
using coach::ColourReading;
using coach::has;
using coach::Means;
using coach::NotFrom;
using coach::PocketReading;
using coach::Reading;
using coach::Shut;

constexpr double degree_rad = std::numbers::pi / 180;
/// Of the ways that are not direct, those worth a sentence: at least this chance, and so many.
constexpr double worth_saying = 0.10;
constexpr std::size_t most_said = 2;

const std::string& id(const Reading& reading, int ball) {
  return reading.layout.balls[static_cast<std::size_t>(ball)].id;
}

std::string name(const Reading& reading, int ball) { return ball_name(id(reading, ball)); }

std::string names(const Reading& reading, const std::vector<int>& balls) {
  std::vector<std::string> all;
  for (const int ball : balls) all.push_back(name(reading, ball));
  return listed(all);
}

std::string pockets(const Reading& reading, const std::vector<int>& list) {
  std::vector<std::string> all;
  for (const int pocket : list) all.push_back(pocket_name(reading.layout.table, pocket));
  return listed(all);
}

std::string mm_words(double metres) {
  const double mm = 1000 * metres;
  return mm < 9.95 ? fmt::format("{:.1f} mm", mm) : fmt::format("{:.0f} mm", mm);
}

std::string blockers_words(const Reading& reading, const std::vector<coach::Blocker>& blockers) {
  constexpr std::size_t most_named = 2;
  std::vector<std::string> all;
  for (const coach::Blocker& one : blockers) {
    if (all.size() == most_named) break;
    all.push_back(fmt::format("{} ({})", name(reading, one.ball), mm_words(one.overlap_m)));
  }
  return listed(all);
}

std::string count(std::size_t number, std::string_view one, std::string_view many) {
  static constexpr std::array<std::string_view, 9> small{"no",   "one", "two",   "three", "four",
                                                         "five", "six", "seven", "eight"};
  const std::string figure =
      number < small.size() ? std::string(small[number]) : fmt::format("{}", number);
  return figure + " " + std::string(number == 1 ? one : many);
}

/// How much of the bed the cue ball can pot it from.
std::string from_where(double share) {
  if (share >= 0.85) return "from almost anywhere";
  if (share >= coach::most_places) return "from most of the table";
  if (share >= 0.40) return "from about half of the table";
  if (share >= coach::few_places) return "from a good part of the table";
  if (share >= 0.10) return "from a small part of the table only";
  return "from very few places only";
}

std::string why_shut(const Reading& reading, const BallReading& ball, const PocketReading& pocket) {
  if (!pocket.opening.shut) return "no room for the cue ball behind it";
  switch (*pocket.opening.shut) {
    case Shut::blocked:
      return "blocked by " + blockers_words(reading, pocket.opening.blockers);
    case Shut::angle:
      return "the jaws close the angle";
    case Shut::cushion:
      break;
  }
  return ball.cushion_room_m < coach::touching_gap_m ? "frozen to the cushion"
                                                     : "too tight on the cushion";
}

std::string not_from_here(const Reading& reading, const coach::LineUp& line_up) {
  switch (*line_up.not_from) {
    case NotFrom::cut:
      return "too fine a cut";
    case NotFrom::ghost:
      return "no room for the cue ball at the contact";
    case NotFrom::in_way:
      break;
  }
  return blockers_words(reading, line_up.in_way) + " in the cue ball's way";
}

/// "the middle-left (cut 22 degrees) and the top-left (straight)".
std::string goes_words(const Reading& reading, const BallReading& ball) {
  std::vector<std::string> here;
  std::vector<std::string> hindered;
  std::vector<int> behind;  // the cue ball is on the wrong side of the ball
  for (const PocketReading& pocket : ball.pockets) {
    if (!pocket.goes()) continue;
    const coach::LineUp& from_here = pocket.from_here;
    const std::string to = pocket_name(reading.layout.table, pocket.opening.pocket) +
                           (pocket.narrow() ? " through a narrow gap" : "");
    if (!from_here.not_from) {
      const long cut_deg = std::lround(from_here.cut_rad / degree_rad);
      here.push_back(cut_deg <= 2 ? to + " (straight)"
                                  : fmt::format("{} (cut {} degrees)", to, cut_deg));
    } else if (from_here.cut_rad > std::numbers::pi / 2) {
      behind.push_back(pocket.opening.pocket);
    } else {
      hindered.push_back(fmt::format("{} ({})", to, not_from_here(reading, from_here)));
    }
  }
  std::vector<std::string> sentences;
  if (!here.empty()) sentences.push_back("Goes from here to " + listed(here) + ".");
  if (!hindered.empty()) sentences.push_back("Not from here to " + listed(hindered) + ".");
  if (!behind.empty()) {
    sentences.push_back(fmt::format("From the other side {}to {}.", here.empty() ? "" : "also ",
                                    pockets(reading, behind)));
  }
  return fmt::format("{}", fmt::join(sentences, " "));
}

/// One clause for all pockets that are shut for the same reason.
std::string shut_words(const Reading& reading, const BallReading& ball) {
  std::vector<std::pair<std::string, std::vector<int>>> reasons;
  for (const PocketReading& pocket : ball.pockets) {
    if (pocket.goes()) continue;
    const std::string why = why_shut(reading, ball, pocket);
    const auto known = std::ranges::find(reasons, why, [](const auto& one) { return one.first; });
    if (known != reasons.end()) {
      known->second.push_back(pocket.opening.pocket);
    } else {
      reasons.push_back({why, {pocket.opening.pocket}});
    }
  }
  std::string words;
  for (const auto& [why, list] : reasons) {
    words += (words.empty() ? "" : "; ") + pockets(reading, list) + ": " + why;
  }
  return words.empty() ? words : "Shut: " + words + ".";
}

std::string way_words(const Reading& reading, const coach::OtherWay& way) {
  const std::string to = pocket_name(reading.layout.table, way.pocket);
  switch (way.how.means) {
    case Means::plant:
      return fmt::format("a plant by {} to {}", names(reading, way.how.by), to);
    case Means::set:
      return fmt::format("a set by {}, touching, to {}", names(reading, way.how.by), to);
    case Means::cannon:
      return fmt::format("a cannon off {} to {}", names(reading, way.how.by), to);
    case Means::off_ball:
      return fmt::format("in off {} to {}", names(reading, way.how.by), to);
    case Means::cross_double:
      return fmt::format("a cross-double to {}", to);
    case Means::double_off:
      break;
  }
  return fmt::format("a double off {} to {}",
                     way.how.cushions == 1 ? "one cushion" : "two cushions", to);
}

std::string other_ways_words(const Reading& reading, const BallReading& ball) {
  std::vector<std::string> all;
  for (const coach::OtherWay& way : ball.other_ways) {
    if (way.pot.value < worth_saying || all.size() == most_said) break;
    all.push_back(fmt::format("{} ({})", way_words(reading, way), odds_words(way.pot.value)));
  }
  return all.empty() ? "" : "Also from here: " + listed(all) + ".";
}

/// The way a ball is pushed, as a player says it at the table.
std::string push_words(double push_rad) {
  static constexpr std::array<std::string_view, 8> ways{
      "to the right", "up and to the right",  "up the table",   "up and to the left",
      "to the left",  "down and to the left", "down the table", "down and to the right"};
  const auto eighth = std::lround(push_rad / (std::numbers::pi / 4));
  return std::string(ways[static_cast<std::size_t>((eighth % 8 + 8) % 8)]);
}

std::string nudge_words(const Reading& reading, const BallReading& ball) {
  if (!ball.problem) return "";
  if (!ball.freed_by) {
    return ball.ways() == 0 ? "No single soft push of half a metre or less opens a pocket." : "";
  }
  const coach::Nudge& nudge = *ball.freed_by;
  const std::string what =
      nudge.ball == ball.ball ? "A nudge" : "A nudge on " + name(reading, nudge.ball);
  return fmt::format(
      "{} helps: met with the cue ball at {:.0f}, {:.0f} and sent {}, it stops {} away and "
      "opens {}.",
      what, 1000 * nudge.contact.x, 1000 * nudge.contact.y, push_words(nudge.push_rad),
      mm_words(nudge.moves_m), pockets(reading, nudge.opens));
}

std::string standing(const Reading& reading, const BallReading& ball) {
  std::vector<std::string> all;
  const engine::Vec2 at = reading.layout.balls[static_cast<std::size_t>(ball.ball)].at;
  if (ball.cushion_room_m < coach::tight_m) {
    all.push_back(fmt::format(
        "{} the {} cushion", ball.cushion_room_m < coach::touching_gap_m ? "frozen to" : "tight on",
        nearest_cushion(reading.layout.table, at)));
  }
  if (!ball.neighbours.empty()) all.push_back("close to " + names(reading, ball.neighbours));
  return listed(all);
}

/// One colour's case, in one sentence.
std::string case_words(const Reading& reading, const ColourReading& colour) {
  std::vector<std::string> parts;
  parts.push_back(count(colour.problems.size(), "problem ball", "problem balls") +
                  (colour.problems.empty() ? "" : " (" + names(reading, colour.problems) + ")"));
  parts.push_back(count(colour.insurance.size(), "insurance ball", "insurance balls") +
                  (colour.insurance.empty() ? "" : " (" + names(reading, colour.insurance) + ")"));
  if (colour.first) {
    parts.push_back(fmt::format("a first pot in {} to {} at {}", name(reading, colour.first->ball),
                                pocket_name(reading.layout.table, colour.first->pocket),
                                percent_words(colour.first->pot)));
  } else {
    parts.emplace_back("no direct pot from here");
  }
  return fmt::format("{}: {}.", capitalised(std::string(group_name(colour.colour))), listed(parts));
}

std::string black_words(const Reading& reading, const ColourReading& colour) {
  if (colour.black.empty()) {
    return colour.own == 0 || colour.colour == coach::ToPlay::colours
               ? ""
               : "The black goes nowhere yet, even with the colour gone.";
  }
  std::vector<std::string> all;
  for (const coach::BlackPocket& one : colour.black) {
    if (all.size() == 3 || one.share < 0.05) break;
    all.push_back(fmt::format("{} ({} of the places)",
                              pocket_name(reading.layout.table, one.pocket),
                              percent_words(one.share)));
  }
  if (all.empty()) return "The black goes only from very few places, even with the colour gone.";
  std::string words =
      fmt::format("With the {} gone the black goes to {}.", group_name(colour.colour), listed(all));
  if (colour.keys.size() > 1) {
    words += fmt::format(" Its key ball is {}.", name(reading, colour.keys.front().ball));
  }
  return words;
}

std::string choice_words(const Reading& reading) {
  const ColourReading& best = reading.colours.front();
  if (reading.colours.size() == 1) {
    return fmt::format("{}: cleared from here {} for this player, played out.",
                       capitalised(std::string(group_name(best.colour))), chance_words(best.clear));
  }
  const ColourReading& other = reading.colours.back();
  if (coach::told_apart(best, other)) {
    return fmt::format("Take the {}: cleared from here {} for this player, the {} {}.",
                       group_name(best.colour), chance_words(best.clear), group_name(other.colour),
                       chance_words(other.clear));
  }
  return fmt::format(
      "Close between the colours; the planner leans to the {}. Played out for this player, the {} "
      "are cleared from here {}, the {} {}: too few to part them.",
      group_name(best.colour), group_name(best.colour), chance_words(best.clear),
      group_name(other.colour), chance_words(other.clear));
}

/// In which way the choice is better than the other colour.
std::string better_words(const ColourReading& best, const ColourReading& other) {
  std::vector<std::string> all;
  if (best.problems.size() < other.problems.size()) all.emplace_back("fewer problem balls");
  if (best.insurance.size() > other.insurance.size()) all.emplace_back("more insurance");
  if (best.first && (!other.first || best.first->pot > other.first->pot + 0.05)) {
    all.emplace_back("an easier first pot");
  }
  if (!best.keys.empty() && !other.keys.empty() &&
      best.keys.front().black_after > 1.15 * other.keys.front().black_after) {
    all.emplace_back("a better key ball for the black");
  }
  if (all.empty()) return "";
  return fmt::format("For the {} speak {}.", group_name(best.colour), listed(all));
}

}  // namespace

BallWords ball_words(const Reading& reading, const BallReading& ball) {
  BallWords words{.name = capitalised(name(reading, ball.ball))};
  std::string role =
      ball.ways() == 0
          ? "goes nowhere"
          : fmt::format("{}, {}", count(static_cast<std::size_t>(ball.ways()), "pocket", "pockets"),
                        from_where(ball.share));
  if (ball.problem) role = "Problem ball: " + role;
  if (ball.insurance) role = "Insurance: " + role;
  const std::string stands = standing(reading, ball);
  if (!stands.empty()) role += "; " + stands;
  words.sentences.push_back(capitalised(role) + ".");
  for (std::string each : {goes_words(reading, ball), shut_words(reading, ball),
                           other_ways_words(reading, ball), nudge_words(reading, ball)}) {
    while (each.ends_with(' ')) each.pop_back();
    if (!each.empty()) words.sentences.push_back(std::move(each));
  }
  return words;
}

ReadingWords reading_words(const Reading& reading) {
  ReadingWords words{.choice = choice_words(reading), .rules = rule_words(reading)};
  if (reading.colours.size() > 1) {
    const std::string better = better_words(reading.colours.front(), reading.colours.back());
    if (!better.empty()) words.reasons.push_back(better);
  }
  coach::BallSet own = 0;
  for (const ColourReading& colour : reading.colours) {
    own |= colour.own;
    if (colour.own != 0) words.reasons.push_back(case_words(reading, colour));
    const std::string black = black_words(reading, colour);
    if (!black.empty()) words.reasons.push_back(black);
  }
  const auto add = [&](const BallReading& ball) { words.own.push_back(ball_words(reading, ball)); };
  for (const ColourReading& colour : reading.colours) {
    for (const BallReading& ball : reading.balls) {
      if (has(colour.own, ball.ball)) add(ball);
    }
  }
  for (const BallReading& ball : reading.balls) {
    const bool black =
        reading.layout.balls[static_cast<std::size_t>(ball.ball)].colour == coach::Colour::black;
    if (has(own, ball.ball)) continue;
    if (black) {
      add(ball);
      continue;
    }
    const std::string goes =
        ball.ways() == 0
            ? "goes nowhere"
            : fmt::format("{}, {}",
                          count(static_cast<std::size_t>(ball.ways()), "pocket", "pockets"),
                          from_where(ball.share));
    const std::string stands = standing(reading, ball);
    words.others.push_back(fmt::format("{}: {}{}{}.", capitalised(name(reading, ball.ball)), goes,
                                       stands.empty() ? "" : "; ", stands));
  }
  return words;
}

}  // namespace ahead::lesson
