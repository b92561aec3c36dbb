#include "lesson/words/after_words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

#include <fmt/format.h>

#include "lesson/words/chance.h"
#include "lesson/words/names.h"

namespace ahead::lesson {
namespace {

using coach::Aftermath;
using coach::Estimate;
using coach::Part;
using coach::PlannedShot;
using coach::StrikePosterior;

/// How a slip of one part is said: in this unit, and with these words for its two directions.
struct PartWords {
  std::string_view name;
  std::string_view less;
  std::string_view more;
  std::string_view unit;
  double units;  ///< in one of the code's own
  int decimals;
};

const PartWords& words_of(Part part) {
  constexpr double degrees = 180 / std::numbers::pi;
  static constexpr std::array all{
      PartWords{"direction", "right of the line", "left of the line", "°", degrees, 2},
      PartWords{"pace", "too soft", "too hard", "%", 100, 0},
      PartWords{"height of the tip", "too low", "too high", " mm", 1000, 1},
      PartWords{"side of the tip", "too far left", "too far right", " mm", 1000, 1},
      PartWords{"elevation of the butt", "too flat", "too steep", "°", degrees, 1}};
  return all[static_cast<std::size_t>(part)];
}

/// The size of a slip without its unit, "0" when it rounds to nothing.
std::string figure_of(Part part, double slip) {
  const PartWords& words = words_of(part);
  const std::string figure = fmt::format("{:.{}f}", std::abs(words.units * slip), words.decimals);
  return figure.find_first_not_of("0.") == std::string::npos ? "0" : figure;
}

}  // namespace

std::string slip_words(Part part, double slip) {
  const std::string figure = figure_of(part, slip);
  if (figure == "0") return "as meant";
  const PartWords& words = words_of(part);
  return fmt::format("{}{} {}", figure, words.unit, slip < 0 ? words.less : words.more);
}

std::string slip_interval_words(Part part, double low, double high) {
  if (low * high <= 0) return slip_words(part, low) + " to " + slip_words(part, high);
  const auto [nearer, further] =
      std::abs(low) < std::abs(high) ? std::pair(low, high) : std::pair(high, low);
  return figure_of(part, nearer) + " to " + slip_words(part, further);
}

namespace {

std::string estimate_sentence(Part part, const Estimate& estimate) {
  return fmt::format("{}: {} (90% interval: {}).", capitalised(std::string(words_of(part).name)),
                     slip_words(part, estimate.best),
                     slip_interval_words(part, estimate.low, estimate.high));
}

std::string place_words(engine::Vec2 place) {
  return fmt::format("({:.0f}, {:.0f})", 1000 * place.x, 1000 * place.y);
}

std::string end_sentence(const coach::EndPair& end) {
  const std::string name = capitalised(ball_name(end.id));
  if (!end.meant && !end.found) return fmt::format("{} has gone, as meant.", name);
  if (!end.found) {
    return fmt::format("{} has gone; it was meant to stop at {}.", name, place_words(*end.meant));
  }
  if (!end.meant) {
    return fmt::format("{} was meant to go, and lies at {}.", name, place_words(*end.found));
  }
  return fmt::format("{} lies at {}, {:.0f} mm from where it was meant to stop.", name,
                     place_words(*end.found), 1000 * engine::norm(*end.found - *end.meant));
}

/// "310 mm too far and 40 mm to the left"
std::string leave_sentence(const coach::LeaveMiss& miss) {
  const auto millimetres = [](double m) { return std::lround(1000 * std::abs(m)); };
  return fmt::format("Along its last run that is {} mm {}, and across it {} mm to the {}.",
                     millimetres(miss.along_m), miss.along_m < 0 ? "short" : "too far",
                     millimetres(miss.across_m), miss.across_m < 0 ? "right" : "left");
}

std::vector<std::string> ends_of(const Aftermath& after) {
  std::vector<std::string> ends;
  for (const coach::EndPair& end : after.ends) {
    ends.push_back(end_sentence(end));
    if (end.id == "cue" && after.leave) ends.back() += " " + leave_sentence(*after.leave);
  }
  return ends;
}

std::string names_of(const std::vector<int>& balls, const PlannedShot& shot) {
  std::vector<std::string> names;
  for (const int ball : balls) {
    names.push_back(ball_name(shot.before.balls[static_cast<std::size_t>(ball)].id));
  }
  return listed(names);
}

std::string tradeoff_sentence(const coach::Tradeoff& tie) {
  if (figure_of(tie.one, tie.one_alone) == "0" || figure_of(tie.other, tie.other_alone) == "0") {
    return fmt::format(
        "The balls cannot tell {} and {} apart: a slip of one makes up for a slip of the other.",
        words_of(tie.one).name, words_of(tie.other).name);
  }
  return fmt::format(
      "The balls cannot tell {} and {} apart: either {} with the {} as meant, or {} with the {} as "
      "meant, or something of both.",
      words_of(tie.one).name, words_of(tie.other).name, slip_words(tie.one, tie.one_alone),
      words_of(tie.other).name, slip_words(tie.other, tie.other_alone), words_of(tie.one).name);
}

std::vector<std::string> strike_sentences(const StrikePosterior& strike, const PlannedShot& shot) {
  if (!coach::is_explained(strike)) {
    std::string words =
        "No strike of this player at that shot explains where the balls lie. Either the layout "
        "is not what this shot left, or the player's errors are wider than the file says, or "
        "something happened that is not simulated (a miscue, a kick, a ball touched).";
    if (!strike.strays.empty()) {
      words += fmt::format(" What does not fit: {}.", names_of(strike.strays, shot));
    }
    return {words};
  }
  std::vector<std::string> sentences;
  std::vector<std::string> untold;
  for (std::size_t p = 0; p < coach::part_count; ++p) {
    const auto part = static_cast<Part>(p);
    if (strike.parts[p].prior_sigma == 0) continue;
    if (std::ranges::find(strike.untold, part) != strike.untold.end()) {
      untold.emplace_back(words_of(part).name);
    } else {
      sentences.push_back(estimate_sentence(part, strike.parts[p]));
    }
  }
  constexpr std::size_t most_ties = 2;
  for (std::size_t i = 0; i < std::min(most_ties, strike.tradeoffs.size()); ++i) {
    sentences.push_back(tradeoff_sentence(strike.tradeoffs[i]));
  }
  if (!untold.empty()) {
    sentences.push_back(fmt::format("The balls say next to nothing about the {}.", listed(untold)));
  }
  constexpr double few = 200;
  if (strike.effective_samples < few) {
    sentences.push_back(
        fmt::format("These figures are rough: they rest on {:.0f} effective samples.",
                    strike.effective_samples));
  }
  return sentences;
}

std::string next_sentence(const Aftermath& after) {
  if (!after.next) return {};
  const std::string pot = fmt::format("{} to {}", ball_name(after.next->id),
                                      pocket_name(after.actual.table, after.next->pocket));
  if (!after.next->now) return fmt::format("The plan's next pot, {}, is not on from here.", pot);
  return fmt::format("The plan's next pot, {}, is still on: {}, against {} in the plan.", pot,
                     percent_words(after.next->now->value), percent_words(after.next->meant));
}

std::string from_here_sentence(const coach::Plan& plan, const Aftermath& after) {
  const std::string visit =
      after.potted ? "" : "The ball stayed up, so the visit is over; from these balls, ";
  if (!after.plan) {
    const auto mine = std::ranges::any_of(
        after.actual.balls, [](const auto& ball) { return ball.colour == coach::Colour::black; });
    return capitalised(visit + (mine ? "no ball that is on can be potted directly from here."
                                     : "nothing is left to clear."));
  }
  const coach::ShotOption& best = after.plan->shots.front().best;
  const std::string& id =
      after.plan->shots.front().before.balls[static_cast<std::size_t>(best.ball)].id;
  const bool as_planned = after.next && after.next->id == id && after.next->pocket == best.pocket;
  const std::string was =
      after.potted && after.shot + 1 < plan.shots.size()
          ? fmt::format(", against {} in the plan",
                        percent_words(plan.shots[after.shot + 1].best.clear.value))
          : "";
  return capitalised(fmt::format("{}the new plan begins with {} to {}{} and clears {}{}.", visit,
                                 ball_name(id), pocket_name(after.actual.table, best.pocket),
                                 as_planned ? ", as before," : "", chance_words(after.plan->clear),
                                 was));
}

}  // namespace

AfterWords after_words(const coach::Plan& plan, const Aftermath& after) {
  const PlannedShot& shot = plan.shots[after.shot];
  const std::string& id = shot.before.balls[static_cast<std::size_t>(shot.best.ball)].id;
  return {.title = fmt::format("Shot {}, {} to {}: {}", after.shot + 1, ball_name(id),
                               pocket_name(shot.before.table, shot.best.pocket),
                               after.potted ? "the ball has gone" : "not potted"),
          .ends = ends_of(after),
          .strike = strike_sentences(after.strike, shot),
          .next = next_sentence(after),
          .from_here = from_here_sentence(plan, after)};
}

std::string doubt_words(const coach::Plan& plan, const coach::Steadiness& steadiness) {
  if (!coach::is_shaky(steadiness)) return {};
  const PlannedShot& shot = plan.shots.front();
  const int changed = steadiness.redraws - steadiness.kept - steadiness.close;
  std::string words = fmt::format(
      "Measure again before you trust the first choice: with the balls moved by about {:.0f} mm, "
      "another was clearly better {} times in {}.",
      1000 * steadiness.sigma_m, changed, steadiness.redraws);
  if (steadiness.hangs_on) {
    words += fmt::format(
        " It hangs on {}.",
        ball_name(shot.before.balls[static_cast<std::size_t>(*steadiness.hangs_on)].id));
  }
  return words;
}

}  // namespace ahead::lesson
