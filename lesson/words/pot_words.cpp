#include "lesson/words/pot_words.h"

#include <array>
#include <cmath>
#include <numbers>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "lesson/words/access_words.h"
#include "lesson/words/chance.h"
#include "lesson/words/names.h"
#include "lesson/words/strike_words.h"

namespace ahead::lesson {
namespace {

constexpr double degree_rad = std::numbers::pi / 180;
constexpr std::array<std::string_view, 3> paces{"slow", "medium", "firm"};

int mm(double metres) { return static_cast<int>(std::lround(1000 * metres)); }

std::string gate_words(const coach::PotAnalysis& analysis) {
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < analysis.gates.size(); ++i) {
    const auto& gate = analysis.gates[i];
    if (!gate) {
      parts.push_back(fmt::format("nothing drops at {} pace", paces[i]));
      continue;
    }
    const double half = gate->half_width_rad();
    parts.push_back(fmt::format("{:.1f} degrees either way ({} mm at the pocket) at {} pace",
                                half / degree_rad, mm(half * analysis.to_pocket_m), paces[i]));
  }
  return fmt::format("The gate: {}.\n", listed(parts));
}

}  // namespace

std::string why_no_pot(coach::NoPot why, coach::BallSet blockers, const coach::Access* barrier,
                       const coach::Layout& layout) {
  switch (why) {
    case coach::NoPot::closed:
      return "no direction drops past the jaws and the balls that stay";
    case coach::NoPot::blocked: {
      std::vector<std::string> names;
      for (int ball = 0; ball < static_cast<int>(layout.balls.size()); ++ball) {
        if (coach::has(blockers, ball)) {
          names.push_back(ball_name(layout.balls[static_cast<std::size_t>(ball)].id));
        }
      }
      return listed(names) + (names.size() > 1 ? " stand" : " stands") + " on the pot line";
    }
    case coach::NoPot::cut_too_fine:
      return "the cue ball is on the wrong side of the ball, the cut is beyond 90 degrees";
    case coach::NoPot::no_access:
      if (barrier == nullptr) break;
      return why_not_words(*barrier, layout);
    case coach::NoPot::no_strike:
      break;
  }
  return "no strike of the set reaches the ball and pots it legally";
}

namespace {

std::string refusal(const coach::PotAnalysis& analysis, const coach::Layout& layout) {
  const std::string& id = layout.balls[static_cast<std::size_t>(analysis.ball)].id;
  const auto loss = coach::face_loss(analysis.face);
  return fmt::format(
      "This player cannot pot {} into {} from here: {}.\n", ball_name(id),
      pocket_name(layout.table, analysis.pocket),
      why_no_pot(*analysis.no_pot, analysis.blockers, loss ? &loss->typical : nullptr, layout));
}

std::string spin_word(double roll) {
  if (roll < -0.15) return "screw";
  if (roll < 0.15) return "stun";
  return roll < 0.85 ? "stun run" : "follow";
}

std::string strike_row(const coach::AnalysedStrike& strike, const AccessFacts& access) {
  const coach::ShotOption& option = strike.option;
  const std::string side = side_words(option.strike.side);
  return fmt::format(
      "  {:>4}  {:>5}  {:<17} {:<28} {:>4.2f}  {:<8} {:>4}, {:>4}  {:>5}  {:>3.0f}\u00b0  {}\n",
      percent_words(option.pot.value),
      strike.leave ? percent_words(strike.leave->lands.value) : "-",
      height_word(option.strike.height), side.empty() ? "no side" : side,
      option.strike.cue_speed_mps, spin_word(option.cue_path.roll_at_contact),
      mm(option.cue_path.rest.x), mm(option.cue_path.rest.y), percent_words(option.fates.in_off),
      access.elevation_deg, carried_words(access));
}

std::string either_way(const coach::Span& span, double unit, int digits, std::string_view name) {
  return fmt::format("{:.{}f}/+{:.{}f} {}", span.low * unit, digits, span.high * unit, digits,
                     name);
}

/// What the first strike bears.
std::string tolerance_words(const coach::LeaveFacts& leave) {
  const coach::Tolerances& t = leave.tolerances;
  return fmt::format(
      "The first strike bears, each by itself: pace {}, tip height {}, tip side {}, aim {}.\n",
      either_way(t.pace, 100, 0, "%"), either_way(t.tip_height_m, 1000, 1, "mm"),
      either_way(t.tip_side_m, 1000, 1, "mm"),
      either_way(t.direction_rad, 1 / degree_rad, 2, "degrees"));
}

/// What comes of it when the player falls further off.
std::vector<std::string> miss_words(const coach::LeaveFacts& leave) {
  constexpr std::array<std::string_view, 4> sides{"too hard", "too soft", "to the left",
                                                  "to the right"};
  std::vector<std::string> all;
  for (std::size_t i = 0; i < sides.size(); ++i) {
    const coach::Miss& miss = leave.misses[i];
    const double amount =
        std::abs(i < 2 ? 100 * miss.slip.pace : miss.slip.direction_rad / degree_rad);
    const std::string by = i < 2 ? fmt::format("{:.0f}% {}", amount, sides[i])
                                 : fmt::format("{:.2f} degrees {}", amount, sides[i]);
    if (!miss.potted) {
      all.push_back(fmt::format("{}: the shot fails.\n", by));
    } else if (miss.off_m > 0) {
      all.push_back(fmt::format("{}: potted, {} mm outside, at {}, {}.\n", by, mm(miss.off_m),
                                mm(miss.rest.x), mm(miss.rest.y)));
    } else {
      all.push_back(fmt::format("{}: potted, still good, at {}, {}.\n", by, mm(miss.rest.x),
                                mm(miss.rest.y)));
    }
  }
  return all;
}

/// How the cue ball comes to the next shot.
std::string line_words(const coach::LeaveFacts& leave) {
  if (!leave.line) return {};
  const double angle_deg = leave.line->angle_rad / degree_rad;
  const std::string_view how = angle_deg < 30   ? "comes along the line of the next shot"
                               : angle_deg > 60 ? "crosses the line of the next shot"
                                                : "comes to the line of the next shot at an angle";
  return fmt::format(
      "The cue ball {} ({:.0f} degrees): the next pot is {} as meant, {} a little short, {} a "
      "little past.\n",
      how, angle_deg, percent_words(leave.line->as_meant), percent_words(leave.line->short_of),
      percent_words(leave.line->past));
}

double upwards_deg(double rad) { return std::remainder(rad, 2 * std::numbers::pi) / degree_rad; }

std::string facts_words(const coach::PotAnalysis& analysis) {
  const coach::ShotOption& first = analysis.strikes.front().option;
  return fmt::format(
      "The cut: {:.0f} degrees to the {}, {}; {} mm to the ball. The ghost ball is at {}, {}. Aim "
      "the cue at {:.1f} degrees; the tangent line runs at {:.0f}, the natural line at {:.0f}.\n",
      first.cut_rad / degree_rad, first.cut_to_left ? "left" : "right",
      thickness_words(first.thickness, first.cut_rad), mm(first.to_ball_m), mm(analysis.ghost.x),
      mm(analysis.ghost.y), upwards_deg(first.strike.aim_rad), upwards_deg(analysis.tangent_rad),
      upwards_deg(analysis.natural_rad));
}

/// What the cue ball meets after the contact, and what can go wrong on the way.
std::string way_words(const coach::ShotOption& first, const coach::Layout& layout) {
  std::vector<std::string> met;
  for (const int ball : first.cue_path.meets) {
    met.push_back(ball_name(layout.balls[static_cast<std::size_t>(ball)].id));
  }
  const int cushions = first.cue_path.cushions_after;
  return fmt::format(
      "After the contact the cue ball runs {:.2f} m, {}, and {}. In-off: {} of the tries.\n",
      first.cue_path.travel_after_m,
      cushions == 0   ? "no cushion"
      : cushions == 1 ? "one cushion"
                      : fmt::format("{} cushions", cushions),
      met.empty() ? "meets no other ball" : "meets " + listed(met),
      percent_words(first.fates.in_off));
}

/// Why the likeliest strike does not stand first.
std::string price_words(const coach::PotAnalysis& analysis) {
  if (analysis.price_of_plain <= 0) return {};
  return fmt::format(
      "The first strike is the plainer one; another of the list has {:.1f} points more.\n",
      100 * analysis.price_of_plain);
}

}  // namespace

std::vector<std::string> pot_sentences(const coach::PotAnalysis& analysis,
                                       const coach::Layout& layout, const coach::Player& player) {
  const coach::AnalysedStrike& first = analysis.strikes.front();
  const AccessFacts access = access_facts(first.option.access, first.option.face, layout, player);
  std::vector<std::string> all{
      fmt::format("Pots {} of {} tries.{}", percent_words(first.option.pot.value),
                  first.option.pot.trials,
                  first.leave ? fmt::format(" Pots and leaves the cue ball as wanted: {}.",
                                            percent_words(first.leave->lands.value))
                              : ""),
      gate_words(analysis),
      facts_words(analysis),
      access_sentence(access),
      raised_cue_caution(access.elevation_deg),
      way_words(first.option, layout)};
  if (first.leave) {
    all.push_back(price_words(analysis));
    all.push_back(tolerance_words(*first.leave));
    std::string misses;
    for (const std::string& miss : miss_words(*first.leave)) {
      misses += (misses.empty() ? "" : " ") + capitalised(miss);
      misses.pop_back();  // the line's end
    }
    all.push_back(misses);
    all.push_back(line_words(*first.leave));
  }
  std::erase(all, "");
  return all;
}

std::string pot_words(const coach::PotAnalysis& analysis, const coach::Layout& layout,
                      const coach::Player& player) {
  const std::string name =
      capitalised(ball_name(layout.balls[static_cast<std::size_t>(analysis.ball)].id));
  std::string out =
      fmt::format("{} to {}, {} mm away.\n", name, pocket_name(layout.table, analysis.pocket),
                  mm(analysis.to_pocket_m));
  if (analysis.no_pot == coach::NoPot::closed) return out + refusal(analysis, layout);
  out += gate_words(analysis);
  if (analysis.no_pot) return out + refusal(analysis, layout);
  const coach::AnalysedStrike& first = analysis.strikes.front();
  out += facts_words(analysis);
  const auto facts_of = [&](const coach::ShotOption& option) {
    return access_facts(option.access, option.face, layout, player);
  };
  const AccessFacts best = facts_of(first.option);
  for (const std::string& each : {access_sentence(best), raised_cue_caution(best.elevation_deg)}) {
    if (!each.empty()) out += each + "\n";
  }
  out += fmt::format("\nStrikes, best first ({} tries each)\n", first.option.pot.trials);
  out += fmt::format("  {:>4}  {:>5}  {:<17} {:<28} {:>4}  {:<8} {:>10}  {:>5}  {:>4}  {}\n", "pot",
                     "leave", "height", "side", "m/s", "arrives", "stops at", "in-off", "butt",
                     "cue carried by");
  for (const coach::AnalysedStrike& strike : analysis.strikes) {
    out += strike_row(strike, facts_of(strike.option));
  }
  out += "\n" + price_words(analysis) + way_words(first.option, layout);
  if (first.leave) {
    out += tolerance_words(*first.leave);
    for (const std::string& miss : miss_words(*first.leave)) out += "  " + miss;
    out += line_words(*first.leave);
  }
  return out;
}

}  // namespace ahead::lesson
