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

std::string no_pot_sentence(coach::NoPot why, coach::BallSet blockers, const coach::Access* barrier,
                            const coach::Layout& layout) {
  switch (why) {
    case coach::NoPot::closed:
      return "It does not go: no direction drops past the jaws and the balls that stay.";
    case coach::NoPot::blocked: {
      std::vector<std::string> names;
      for (int ball = 0; ball < static_cast<int>(layout.balls.size()); ++ball) {
        if (coach::has(blockers, ball)) {
          names.push_back(ball_name(layout.balls[static_cast<std::size_t>(ball)].id));
        }
      }
      return fmt::format("It does not go now: {} on the pot line.",
                         listed(names) + (names.size() > 1 ? " stand" : " stands"));
    }
    case coach::NoPot::cut_too_fine:
      return "It does not go from here: the cue ball is on the wrong side of the ball, the cut is "
             "beyond 90 degrees.";
    case coach::NoPot::no_access:
      if (barrier == nullptr) break;
      return fmt::format("This player cannot play it from here: {}.",
                         why_not_words(*barrier, layout));
    case coach::NoPot::no_strike:
      break;
  }
  return "It does not go from here: no strike of the set reaches the ball and pots it legally.";
}

namespace {

std::string no_pot_words(const coach::PotAnalysis& analysis, const coach::Layout& layout) {
  const auto loss = coach::face_loss(analysis.face);
  return no_pot_sentence(*analysis.no_pot, analysis.blockers, loss ? &loss->typical : nullptr,
                         layout) +
         '\n';
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

/// What the best strike bears, and what comes of it when the player falls further off.
std::string leave_words(const coach::LeaveFacts& leave) {
  const coach::Tolerances& t = leave.tolerances;
  std::string out = fmt::format(
      "The first strike bears, each by itself: pace {}, tip height {}, tip side {}, aim {}.\n",
      either_way(t.pace, 100, 0, "%"), either_way(t.tip_height_m, 1000, 1, "mm"),
      either_way(t.tip_side_m, 1000, 1, "mm"),
      either_way(t.direction_rad, 1 / degree_rad, 2, "degrees"));
  constexpr std::array<std::string_view, 4> sides{"too hard", "too soft", "to the left",
                                                  "to the right"};
  for (std::size_t i = 0; i < sides.size(); ++i) {
    const coach::Miss& miss = leave.misses[i];
    const double amount =
        std::abs(i < 2 ? 100 * miss.slip.pace : miss.slip.direction_rad / degree_rad);
    const std::string by = i < 2 ? fmt::format("{:.0f}% {}", amount, sides[i])
                                 : fmt::format("{:.2f} degrees {}", amount, sides[i]);
    if (!miss.potted) {
      out += fmt::format("  {}: the shot fails.\n", by);
    } else if (miss.off_m > 0) {
      out += fmt::format("  {}: potted, {} mm outside, at {}, {}.\n", by, mm(miss.off_m),
                         mm(miss.rest.x), mm(miss.rest.y));
    } else {
      out += fmt::format("  {}: potted, still good, at {}, {}.\n", by, mm(miss.rest.x),
                         mm(miss.rest.y));
    }
  }
  if (!leave.line) return out;
  const double angle_deg = leave.line->angle_rad / degree_rad;
  const std::string_view how = angle_deg < 30   ? "comes along the line of the next shot"
                               : angle_deg > 60 ? "crosses the line of the next shot"
                                                : "comes to the line of the next shot at an angle";
  return out + fmt::format(
                   "The cue ball {} ({:.0f} degrees): the next pot is {} as meant, {} a "
                   "little short, {} a little past.\n",
                   how, angle_deg, percent_words(leave.line->as_meant),
                   percent_words(leave.line->short_of), percent_words(leave.line->past));
}

}  // namespace

std::string pot_words(const coach::PotAnalysis& analysis, const coach::Layout& layout,
                      const coach::Player& player) {
  const std::string name =
      capitalised(ball_name(layout.balls[static_cast<std::size_t>(analysis.ball)].id));
  std::string out =
      fmt::format("{} to {}, {} mm away.\n", name, pocket_name(layout.table, analysis.pocket),
                  mm(analysis.to_pocket_m));
  if (analysis.no_pot == coach::NoPot::closed) return out + no_pot_words(analysis, layout);
  out += gate_words(analysis);
  if (analysis.no_pot) return out + no_pot_words(analysis, layout);
  const coach::ShotOption& plain = analysis.strikes.front().option;
  out += fmt::format(
      "The cut: {:.0f} degrees to the {}, {}. The ghost ball is at {}, {}; the tangent line runs "
      "at "
      "{:.0f} degrees.\n",
      plain.cut_rad / degree_rad, plain.cut_to_left ? "left" : "right",
      thickness_words(plain.thickness, plain.cut_rad), mm(analysis.ghost.x), mm(analysis.ghost.y),
      analysis.tangent_rad / degree_rad);
  const auto facts_of = [&](const coach::ShotOption& option) {
    return access_facts(option.access, option.face, layout, player);
  };
  const AccessFacts best = facts_of(plain);
  for (const std::string& each : {access_sentence(best), raised_cue_caution(best.elevation_deg)}) {
    if (!each.empty()) out += each + "\n";
  }
  out += fmt::format("\nStrikes, best first ({} tries each)\n", plain.pot.trials);
  out += fmt::format("  {:>4}  {:>5}  {:<17} {:<28} {:>4}  {:<8} {:>10}  {:>5}  {:>4}  {}\n", "pot",
                     "leave", "height", "side", "m/s", "arrives", "stops at", "in-off", "butt",
                     "cue carried by");
  for (const coach::AnalysedStrike& strike : analysis.strikes) {
    out += strike_row(strike, facts_of(strike.option));
  }
  if (const auto& leave = analysis.strikes.front().leave) out += "\n" + leave_words(*leave);
  return out;
}

}  // namespace ahead::lesson
