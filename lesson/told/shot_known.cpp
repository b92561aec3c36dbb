#include "lesson/told/shot_known.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

#include <fmt/format.h>

#include "lesson/told/measure.h"
#include "lesson/words/chance.h"
#include "lesson/words/facts.h"
#include "lesson/words/names.h"
#include "lesson/words/pace.h"
#include "lesson/words/strike_words.h"

namespace ahead::lesson {
namespace {

using coach::PlannedShot;
using coach::ShotOption;

constexpr double degrees_per_rad = 180 / std::numbers::pi;

std::string degrees(double rad) { return fmt::format("{:.0f}°", rad * degrees_per_rad); }

/// "95% (93 to 96)": with the 95% interval where it was estimated.
std::string figure(const coach::Chance& chance) {
  if (chance.trials == 0) return percent_words(chance.value);
  return fmt::format("{} ({:.0f} to {:.0f})", percent_words(chance.value), 100 * chance.low,
                     100 * chance.high);
}

/// Of one shot, filling in its facts.
class Telling {
 public:
  Telling(const coach::Plan& plan, std::size_t index, Units units)
      : plan_(plan),
        index_(index),
        units_(units),
        shot_(plan.shots[index]),
        best_(shot_.best),
        facts_(shot_facts(plan, index)) {}

  Known known() {
    pot();
    strike();
    access();
    path();
    leave();
    spread();
    chances();
    risks();
    runner_up();
    return std::move(known_);
  }

 private:
  [[nodiscard]] std::string field(std::string_view rest) const {
    return fmt::format("/shots/{}{}", index_, rest);
  }
  void say(const std::string& name, std::string words, std::string_view rest) {
    known_.say(name, std::move(words), field(rest));
  }

  void pot() {
    const bool last = index_ + 1 == plan_.shots.size();
    known_.when(index_ == 0, "first");
    known_.when(last && plan_.complete, "last");
    known_.when(last && !plan_.complete, "stops short");
    known_.when(facts_.best.straight, "straight");
    known_.when(facts_.best.ball == "the black", "black");
    say("ball", facts_.best.ball, "/ball");
    say("pocket", facts_.best.pocket, "/pocket");
    say("thickness", facts_.best.thickness, "/thickness");
    if (!facts_.best.straight) {
      say("cut", degrees(best_.cut_rad), "/cut_deg");
      say("cut direction", best_.cut_to_left ? "left" : "right", "/cut_to_left");
    }
    say("to ball", length_words(best_.to_ball_m, units_), "/to_ball_mm");
    say("to pocket", length_words(best_.to_pocket_m, units_), "/to_pocket_mm");
  }

  void strike() {
    const StrikeFacts& strike = facts_.best.strike;
    const std::string up = tips_words(strike.cue_tips_up);
    const std::string side = side_words(strike.side);
    const std::string across = side.empty() ? "" : tips_words(strike.cue_tips_right);
    std::vector<std::string> points;
    if (!up.empty())
      points.push_back(up + (strike.cue_tips_up > 0 ? " above" : " below") + " centre");
    if (!across.empty()) {
      points.push_back(across + (strike.cue_tips_right > 0 ? " to the right" : " to the left"));
    }
    known_.when(up.empty() && side.empty(), "plain");
    say("height", std::string(height_word(strike.height)), "/strike/height");
    say("side", side, "/strike/side");
    say("points", listed(points), "/strike/height");
    say("pace", std::string(pace_names[pace_of(strike.cue_ball_speed_mps)]), "/strike/cue_speed");
    say("cue speed", speed_words(best_.strike.cue_speed_mps, units_), "/strike/cue_speed");
    say("contact speed", speed_words(best_.cue_path.speed_at_contact_mps, units_),
        "/cue_path/speed_at_contact");
    say("run", run_words(), "/cue_path/travel_after_mm");
    say("run length", length_words(best_.cue_path.travel_after_m, units_),
        "/cue_path/travel_after_mm");
  }

  /// Short runs are measured, longer ones compared with the table.
  [[nodiscard]] std::string run_words() const {
    const double run_m = best_.cue_path.travel_after_m;
    const double table_m = shot_.before.table.length_m;
    if (run_m >= 0.015 && run_m < table_m / 8) return "about " + length_words(run_m, units_);
    return table_lengths(run_m, table_m);
  }

  void access() {
    const AccessFacts& access = facts_.access;
    constexpr double notable_deg = 8;  // a level cue is up by a few degrees anyway
    constexpr double raised_deg = 15;  // from here a cue counts as raised (common practice)
    constexpr double risky_deg = 30;   // from here the cloth is at risk (common practice)
    constexpr double at_the_end = 0.5;
    constexpr double much = 0.2;
    const double up_deg = best_.strike.elevation_rad * degrees_per_rad;
    const std::string up = fmt::format("{:.0f}°", up_deg);
    const std::string by = access.raised_by.empty() ? "the bridge" : access.raised_by;
    const bool rest =
        access.support == coach::Support::rest || access.support == coach::Support::spider;
    known_.when(rest, "by rest");
    known_.when(access.stretch >= at_the_end, "stretched");
    known_.when(up_deg >= risky_deg, "risky");
    say("not own hand", access.not_own_hand, "/access/not_own_hand");
    say("support", carried_words(access), "/access/bridge");
    say("a support", "a " + carried_words(access), "/access/bridge");
    say("own hand", std::string(access.own_hand), "/access/hand");
    say("other hand", access.own_hand == "right" ? "left" : "right", "/access/hand");
    if (up_deg >= notable_deg && up_deg < raised_deg) say("butt up", up, "/strike/elevation_deg");
    if (up_deg >= notable_deg) say("raised by", by, "/access/raised_by");
    if (up_deg >= raised_deg) say("raised", up, "/strike/elevation_deg");
    if (access.lost_share >= much) say("lost because", access.lost_because, "/access");
  }

  void path() {
    const double roll = facts_.roll_at_contact;
    const bool dragged = facts_.best.strike.height < -0.1 && roll > 0.9 &&
                         facts_.speed_at_contact_mps < 0.7 * facts_.best.strike.cue_ball_speed_mps;
    known_.when(dragged, "drag");
    known_.when(!dragged && roll > 0.9, "rolling");
    known_.when(roll > 0.2 && roll <= 0.9, "stun run");
    known_.when(roll >= -0.2 && roll <= 0.2, "stun");
    known_.when(roll >= -0.8 && roll < -0.2, "screw");
    known_.when(roll < -0.8, "deep screw");
    say("roll", fmt::format("{:.1f}", roll == 0 ? 0.0 : roll), "/cue_path/roll_at_contact");

    std::vector<std::string> cushions;
    for (const std::string& name : facts_.cushions) cushions.push_back("the " + name);
    if (!cushions.empty()) {
      say("cushions", listed(cushions) + (cushions.size() > 1 ? " cushions" : " cushion"),
          "/cue_path/cushions_after");
      // What the object ball gave a strike without side is not worth a pupil's thought.
      const bool struck = !side_words(facts_.best.strike.side).empty();
      known_.when(struck && facts_.running_side, "running side");
      known_.when(struck && facts_.check_side, "check side");
    }
    say("touched", listed(facts_.meets), "/cue_path/meets");

    constexpr double tight_m = 0.010;
    constexpr double near_m = 0.150;
    const StopFacts& stop = facts_.stop;
    say("area", std::string(stop.area), "/cue_path/rest");
    known_.when(stop.gap_m < tight_m, "tight");
    if (stop.gap_m < near_m) {
      say("near cushion", fmt::format("the {} cushion", stop.cushion), "/cue_path/rest");
      if (stop.gap_m >= tight_m) say("gap", length_words(stop.gap_m, units_), "/cue_path/rest");
    }
  }

  void leave() {
    if (!facts_.next) return;
    const auto next = [&](const std::string& name, std::string words, std::string_view rest) {
      known_.say(name, std::move(words), fmt::format("/shots/{}{}", index_ + 1, rest));
    };
    const ShotOption& then = plan_.shots[index_ + 1].best;
    next("next", facts_.next->ball, "/ball");
    next("next pocket", facts_.next->pocket, "/pocket");
    next("next thickness", facts_.next->thickness, "/thickness");
    if (facts_.next->thickness != "straight") next("next cut", degrees(then.cut_rad), "/cut_deg");
    constexpr double close_m = 0.015;
    say("to next",
        facts_.stop.to_next_m < close_m ? "next to nothing"
                                        : length_words(facts_.stop.to_next_m, units_),
        "/cue_path/rest");
    say("next pot", percent_words(best_.next_pot), "/next_pot");
    say("next odds", odds_words(best_.next_pot), "/next_pot");
    constexpr double good = 0.8;
    known_.when(best_.next_pot >= good, "good anyway");
  }

  void spread() {
    constexpr std::size_t enough = 20;
    if (best_.landings.size() < enough) return;
    const engine::Table& table = shot_.before.table;
    std::vector<double> away_m;
    std::size_t tight = 0;
    for (const engine::Vec2 place : best_.landings) {
      away_m.push_back(engine::norm(place - best_.cue_path.rest));
      const double edge_m =
          std::min({place.x, table.width_m - place.x, place.y, table.length_m - place.y});
      if (edge_m - table.cue_ball.radius_m < 0.010) ++tight;
    }
    std::ranges::sort(away_m);
    const auto within_m = [&](double share) {
      return away_m[static_cast<std::size_t>(share * static_cast<double>(away_m.size() - 1))];
    };
    if (facts_.next) {
      say("spread", length_words(std::max(0.01, within_m(0.9)), units_), "/landings");
      say("half spread", length_words(std::max(0.01, within_m(0.5)), units_), "/landings");
    }
    const double share = static_cast<double>(tight) / static_cast<double>(away_m.size());
    constexpr double often = 0.1;
    if (facts_.next && share >= often) {
      known_.when(true, "often tight");
      say("tight odds", odds_words(share), "/landings");
    }
  }

  void chances() {
    say("pot odds", odds_words(best_.pot.value), "/pot/value");
    say("pot percent", percent_words(best_.pot.value), "/pot/value");
    say("pot figure", figure(best_.pot), "/pot");
    if (facts_.next) {
      say("clear odds", odds_words(best_.clear.value), "/clear/value");
      say("clear figure", figure(best_.clear), "/clear");
    }
    say("clear percent", percent_words(best_.clear.value), "/clear/value");
    say("next percent", percent_words(best_.next_pot), "/next_pot");
  }

  void risks() {
    struct Fate {
      std::string_view words;
      double chance;
      std::string_view field;
    };
    constexpr double least = 0.005;
    const coach::Fates& fates = best_.fates;
    std::vector<Fate> all{{"a pot missed thick", fates.missed_thick, "/fates/missed_thick"},
                          {"a pot missed thin", fates.missed_thin, "/fates/missed_thin"},
                          {"an in-off", fates.in_off, "/fates/in_off"},
                          {"the wrong ball first", fates.wrong_first, "/fates/wrong_first"},
                          {"the wrong ball potted", fates.black_early, "/fates/black_early"},
                          {"a miscue", fates.miscue, "/fates/miscue"}};
    std::erase_if(all, [](const Fate& fate) { return fate.chance < least; });
    std::ranges::stable_sort(all, std::greater{}, &Fate::chance);
    constexpr std::array<std::string_view, 3> names{"risk", "second", "third"};
    for (std::size_t i = 0; i < std::min(all.size(), names.size()); ++i) {
      const std::string name{names[i]};
      say(i == 0 ? name : name + " risk", std::string(all[i].words), all[i].field);
      say(name + " odds", odds_words(all[i].chance), all[i].field);
      say(name + " figure", percent_words(all[i].chance), all[i].field);
    }
    constexpr double likely = 0.1;
    constexpr double notable = 0.02;
    known_.when(!all.empty() && all.front().chance >= likely, "likely miss");
    const double fouls = fates.in_off + fates.wrong_first + fates.black_early;
    known_.when(fouls >= notable, "foul");
    // One edge of the pocket being twice as likely is worth saying; less is within the noise.
    known_.when(fates.missed_thin > 2 * fates.missed_thick && fates.missed_thin >= notable,
                "mostly thin");
    known_.when(fates.missed_thick > 2 * fates.missed_thin && fates.missed_thick >= notable,
                "mostly thick");
  }

  void runner_up() {
    if (!facts_.runner_up) return;
    const OptionFacts& other = *facts_.runner_up;
    known_.when(!facts_.runner_up_same_pot, "other pot");
    known_.when(shot_.why_lost == coach::WhyLost::harder_pot, "harder pot");
    known_.when(shot_.why_lost == coach::WhyLost::more_fouls, "more fouls");
    known_.when(shot_.why_lost == coach::WhyLost::worse_position, "worse position");
    known_.when(shot_.why_lost == coach::WhyLost::worse_rest, "worse rest");
    const bool close = shot_.why_lost == coach::WhyLost::too_close_to_call;
    known_.when(close && !facts_.runner_up_is_better, "too close");
    known_.when(close && facts_.runner_up_is_better, "better");
    say("other", facts_.runner_up_same_pot ? "another strike" : other.ball, "/runner_up/ball");
    say("other pocket", other.pocket, "/runner_up/pocket");
    say("other thickness", other.thickness, "/runner_up/thickness");
    say("other height", std::string(height_word(other.strike.height)), "/runner_up/strike/height");
    say("other side", side_words(other.strike.side), "/runner_up/strike/side");
    say("other pace", std::string(pace_names[pace_of(other.strike.cue_ball_speed_mps)]),
        "/runner_up/strike/cue_speed");
    say("other clear", percent_words(other.clear.value), "/runner_up/clear/value");
    say("other pot odds", percent_words(other.pot.value), "/runner_up/pot/value");
    say("other fouls", percent_words(other.fouls), "/runner_up/fates");
    say("fouls", percent_words(facts_.best.fouls), "/fates");
    say("other next", percent_words(other.next_pot), "/runner_up/next_pot");
  }

  const coach::Plan& plan_;
  std::size_t index_;
  Units units_;
  const PlannedShot& shot_;
  const ShotOption& best_;
  ShotFacts facts_;
  Known known_;
};

}  // namespace

Known shot_known(const coach::Plan& plan, std::size_t shot, Units units) {
  return Telling(plan, shot, units).known();
}

}  // namespace ahead::lesson
