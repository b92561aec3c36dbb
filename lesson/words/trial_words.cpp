#include "lesson/words/trial_words.h"

#include <array>
#include <cmath>
#include <string_view>
#include <vector>

#include <fmt/format.h>

namespace ahead::lesson {
namespace {

using coach::Outcome;

constexpr std::array<std::string_view, 3> policy_words{"plan", "greedy", "onestep"};

struct Column {
  Outcome outcome;
  std::string_view heading;
};
/// In the order in which they are shown; the heading says as much as a column has room for.
constexpr std::array columns{
    Column{Outcome::missed_pot, "missed"}, Column{Outcome::lost_position, "lost pos."},
    Column{Outcome::in_off, "in-off"},     Column{Outcome::wrong_ball, "wrong ball"},
    Column{Outcome::black, "black"},       Column{Outcome::no_pot, "no pot"}};

std::string_view name_of(coach::Policy policy) {
  return policy_words[static_cast<std::size_t>(policy)];
}

std::string row_of(const coach::PolicyReport& report) {
  const coach::Tally& tally = report.tally;
  const coach::Chance rate = coach::chance_of(tally.cleared, tally.runs);
  std::string row =
      fmt::format("{:<9}{:>12} {:>6.1f}% {:>14} {:>7.1f}", name_of(report.policy),
                  fmt::format("{} of {}", tally.cleared, tally.runs), 100 * rate.value,
                  fmt::format("{:.1f} to {:.1f}%", 100 * rate.low, 100 * rate.high),
                  static_cast<double>(tally.shots) / tally.runs);
  for (const Column& column : columns) {
    row += fmt::format(" {:>{}}", tally.outcomes[static_cast<std::size_t>(column.outcome)],
                       column.heading.size() + 1);
  }
  return row + '\n';
}

std::string table_of(std::string_view heading, std::span<const coach::Foretold> foretold) {
  if (foretold.empty()) return "";
  std::string out = fmt::format("\n{}\n  {:<12}{:>7}{:>9}{:>9}   {}\n", heading, "tenth", "cases",
                                "stated", "actual", "95% interval");
  const auto tenths = coach::calibration(foretold);
  for (std::size_t i = 0; i < tenths.size(); ++i) {
    const coach::Tenth& tenth = tenths[i];
    if (tenth.cases == 0) continue;
    out +=
        fmt::format("  {:<12}{:>7}{:>8.1f}%{:>8.1f}%   {:.1f} to {:.1f}%\n",
                    fmt::format("{} to {}%", 10 * i, 10 * (i + 1)), tenth.cases, 100 * tenth.stated,
                    100 * tenth.actual.value, 100 * tenth.actual.low, 100 * tenth.actual.high);
  }
  return out;
}

}  // namespace

std::string comparison_words(const coach::TrialReport& report) {
  std::string out = fmt::format("{:<9}{:>12} {:>7} {:>14} {:>7}", report.player.id, "cleared",
                                "rate", "95% interval", "shots");
  for (const Column& column : columns) out += fmt::format("  {}", column.heading);
  out += '\n';
  for (const coach::PolicyReport& policy : report.policies) out += row_of(policy);
  const coach::PolicyReport& first = report.policies.front();
  for (std::size_t i = 1; i < report.policies.size(); ++i) {
    const coach::PolicyReport& other = report.policies[i];
    const coach::Ratio ratio = coach::ratio_of(first.tally, other.tally);
    out += fmt::format("{} clears {:.2f} times as often as {} (95% interval {:.2f} to {:.2f})\n",
                       name_of(first.policy), ratio.value, name_of(other.policy), ratio.low,
                       ratio.high);
  }
  return out;
}

std::string calibration_words(const coach::Tally& tally) {
  return table_of("Pots: the chance stated before each shot, and how often the ball dropped",
                  tally.pots) +
         table_of("Clearances: the chance that the plan states, and how often it cleared",
                  tally.clearances) +
         table_of("Value: what the value field held each position for, and how often it cleared",
                  tally.worths);
}

}  // namespace ahead::lesson
