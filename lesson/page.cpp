#include "lesson/page.h"

#include <cmath>
#include <numbers>
#include <vector>

#include <fmt/format.h>

#include "lesson/figure/pace_figure.h"
#include "lesson/figure/strike_figure.h"
#include "lesson/figure/style.h"
#include "lesson/overview_figure.h"
#include "lesson/page_style.h"
#include "lesson/shot_figure.h"
#include "lesson/words/chance.h"
#include "lesson/words/names.h"
#include "lesson/words/plan_words.h"
#include "lesson/words/shot_words.h"

namespace ahead::lesson {
namespace {

using coach::Plan;

/// Numbers stay on a line with the word before them, and with a unit behind.
std::string kept_together(std::string_view words) {
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool inside = words[i] == ' ' && i > 0 && i + 1 < words.size();
    const bool kept =
        inside &&
        (digit(words[i + 1]) ||
         (digit(words[i - 1]) && (words[i + 1] == 'm' || words.substr(i + 1).starts_with("in "))));
    out += kept ? std::string_view("\u00a0") : words.substr(i, 1);
  }
  return out;
}

std::string paragraph_of(std::string_view words, std::string_view css_class) {
  if (words.empty()) return {};
  const std::string kept = escaped(kept_together(words));
  return css_class.empty() ? fmt::format("<p>{}</p>\n", kept)
                           : fmt::format("<p class=\"{}\">{}</p>\n", css_class, kept);
}

std::string table_figure(const Drawing& drawing, std::string_view id) {
  return fmt::format("<figure class=\"table\">{}</figure>\n", inline_svg(drawing, "", id));
}

std::string fact(std::string_view name, std::string_view value) {
  return fmt::format("<dt>{}</dt><dd>{}</dd>\n", name, escaped(value));
}

std::string figure_words(const coach::Chance& chance) {
  return fmt::format("{} ({:.0f} to {:.0f})", percent_words(chance.value), 100 * chance.low,
                     100 * chance.high);
}

std::string facts_list(const ShotFacts& facts) {
  const OptionFacts& best = facts.best;
  std::string rows =
      fact("pot", figure_words(best.pot)) + fact("clears from here", figure_words(best.clear));
  if (facts.next) rows += fact("next pot, if potted", percent_words(best.next_pot));
  rows += fact("to the ball, to the pocket",
               fmt::format("{:.2f} m, {:.2f} m", best.to_ball_m, best.to_pocket_m));
  rows += fact("cue carried", carried_words(facts.access));
  rows += fact("butt raised", fmt::format("{:.0f}°", best.strike.elevation_deg));
  rows += fact("cue ball off the tip", fmt::format("{:.1f} m/s", best.strike.cue_ball_speed_mps));
  rows += fact("... at the contact", fmt::format("{:.1f} m/s", facts.speed_at_contact_mps));
  rows += fact("... runs on after it", fmt::format("{:.2f} m", facts.travel_after_m));
  return fmt::format("<dl>\n{}</dl>\n", rows);
}

std::string shot_section(const Plan& plan, std::size_t index, const Look& look) {
  const coach::PlannedShot& shot = plan.shots[index];
  const ShotFacts facts = shot_facts(plan, index);
  const ShotWords words = words_of(facts);
  const std::string id = fmt::format("shot-{}", index + 1);

  Drawing strike =
      strike_figure(shot.best.strike, plan.player, shot.before.table,
                    {shot.best.access.error_factor, shot.best.face, facts.access.lost_because});
  strike.title = "Where to strike the cue ball, seen along the cue";
  strike.description = capitalised(where_to_strike(facts.best.strike));
  if (!facts.access.lost_because.empty()) {
    strike.description += ". Hatched, not playable: " + facts.access.lost_because;
  }
  Drawing pace = pace_figure(facts.best.strike.cue_ball_speed_mps, plan.player.pace.sigma,
                             shot.best.strike.elevation_rad);
  pace.title = "How hard, and how much the butt is raised";
  pace.description =
      fmt::format("{:.1f} m/s off the tip, butt raised {:.0f} degrees",
                  facts.best.strike.cue_ball_speed_mps, facts.best.strike.elevation_deg);

  std::string out =
      fmt::format("<section class=\"shot\" id=\"{0}\" aria-labelledby=\"{0}-h\">\n", id);
  out += table_figure(shot_drawing(plan, index, look), id + "-table");
  out += fmt::format("<div class=\"head\"><h2 id=\"{}-h\">{}</h2>\n", id, escaped(words.pot));
  out += paragraph_of(fmt::format("{} · shot {} of {}", capitalised(facts.best.thickness),
                                  index + 1, plan.shots.size()),
                      "under");
  out += "</div>\n<figure class=\"strike\">\n" + inline_svg(strike, "", id + "-strike") +
         inline_svg(pace, "pace-figure", id + "-pace") + "</figure>\n<div class=\"say\">\n";
  out += paragraph_of(words.caution, "caution") + paragraph_of(words.strike, "") +
         paragraph_of(words.access, "") + paragraph_of(words.cue_ball, "") +
         paragraph_of(words.why, "") + paragraph_of(words.chance + " " + words.risk, "");
  if (!words.runner_up.empty()) {
    out += fmt::format("<div class=\"alt\"><h3>Runner-up</h3><p>{}</p></div>\n",
                       escaped(kept_together(words.runner_up)));
  }
  out += paragraph_of(shot_legend(look), "aside") + "</div>\n<div class=\"facts\">" +
         facts_list(facts) + "</div>\n";
  return out + "</section>\n";
}

/// What the chances hold for: the player's errors, as the plan was given them.
std::string player_errors(const coach::Player& player) {
  const auto degrees = [](double rad) { return rad * 180 / std::numbers::pi; };
  return "<div class=\"facts\"><h3>The player's errors, one sigma</h3><dl>\n" +
         fact("direction", fmt::format("{:.2f}°", degrees(player.direction_rad.sigma))) +
         fact("pace", fmt::format("{:.0f}%", 100 * player.pace.sigma)) +
         fact("tip, up and down", fmt::format("{:.1f} mm", 1000 * player.tip_height_m.sigma)) +
         fact("tip, left and right", fmt::format("{:.1f} mm", 1000 * player.tip_side_m.sigma)) +
         fact("butt", fmt::format("{:.1f}°", degrees(player.elevation_rad.sigma))) +
         "</dl></div>\n";
}

std::string plan_section(const Plan& plan, const Look& look) {
  const PlanWords words = plan_words(plan);
  std::string order;
  for (std::size_t i = 0; i < plan.shots.size(); ++i) {
    const ShotFacts facts = shot_facts(plan, i);
    order += fmt::format("<li><a href=\"#shot-{}\">{} <small>{}</small></a></li>\n", i + 1,
                         escaped(capitalised(facts.best.ball) + " to " + facts.best.pocket),
                         escaped("pots " + odds_words(facts.best.pot.value)));
  }
  return fmt::format(
             "<section class=\"whole\" id=\"plan\" aria-labelledby=\"plan-h\">\n{}<div "
             "class=\"head\">"
             "<h1 id=\"plan-h\">{}</h1></div>\n<div class=\"say\">\n",
             table_figure(overview_drawing(plan, look), "plan-table"), escaped(words.title)) +
         paragraph_of(words.chance, "") + paragraph_of(words.bet, "") +
         paragraph_of(words.colour, "") + fmt::format("<ol class=\"order\">\n{}</ol>\n", order) +
         paragraph_of(
             "Numbers give the order of play; dashed lines run from each ball, where it then lies, "
             "to its "
             "pocket.",
             "aside") +
         paragraph_of(words.honesty, "aside") + "</div>\n" + player_errors(plan.player) +
         "</section>\n";
}

std::string strip(const Plan& plan) {
  std::string frames = "<a href=\"#plan\"><span><b>The whole plan</b><span>" +
                       escaped(percent_words(plan.clear.value)) + " clear</span></span></a>\n";
  for (std::size_t i = 0; i < plan.shots.size(); ++i) {
    const ShotFacts facts = shot_facts(plan, i);
    Drawing frame = shot_frame(plan, i);
    frames += fmt::format(
        "<a href=\"#shot-{0}\"><svg viewBox=\"{1} {2} {3} {4}\" aria-hidden=\"true\">{5}</svg>"
        "<span><b>{0} · {6}</b><span>{7}</span><span>{8} pot</span></span></a>\n",
        i + 1, number(frame.left), number(frame.top), number(frame.width), number(frame.height),
        frame.body, escaped(facts.best.ball), escaped(facts.best.pocket.substr(4)),
        escaped(percent_words(facts.best.pot.value)));
  }
  return fmt::format("<nav class=\"strip\" aria-label=\"Shots\">\n{}</nav>\n", frames);
}

}  // namespace

std::string plan_page(const Plan& plan, const Look& look) {
  const PlanWords words = plan_words(plan);
  std::string sections = plan_section(plan, look);
  for (std::size_t i = 0; i < plan.shots.size(); ++i) sections += shot_section(plan, i, look);
  return fmt::format(
      "<!doctype html>\n<html lang=\"en-GB\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n"
      "<title>{}</title>\n<style>\n{}{}</style>\n</head>\n<body>\n"
      "<header><b>Three Ahead</b><span>{}</span><span class=\"for\">for the player \"{}\", "
      "{}-handed, "
      "table \"{}\"</span></header>\n{}<main>\n{}</main>\n<script>{}</script>\n</body>\n</html>\n",
      escaped(words.title), figure_style(look), page_style(look), escaped(words.title),
      escaped(plan.player.id), plan.player.hand == coach::Hand::right ? "right" : "left",
      escaped(plan.layout.table.id), strip(plan), sections, page_script());
}

}  // namespace ahead::lesson
