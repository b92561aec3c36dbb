#include <algorithm>
#include <array>
#include <cmath>

#include "coach/leaves/leave_search.h"
#include "coach/read/reading.h"
#include "formats/plan.h"
#include "formats/reading.h"
#include "formats/shot.h"
#include "formats/workbench/answers.h"
#include "formats/workbench/json_object.h"
#include "formats/workbench/questions.h"
#include "lesson/words/live_words.h"
#include "lesson/words/names.h"
#include "lesson/words/pot_words.h"
#include "lesson/words/reading_words.h"
#include "server/plan_view.h"
#include "server/problems.h"
#include "server/workbench.h"

// What the coach answers at once.
namespace ahead::server {
namespace {

using formats::JsonList;
using formats::JsonObject;

std::string words_text(const lesson::StrikeWords& words) {
  return JsonObject()
      .add_words("thickness", words.thickness)
      .add_words("strike", words.strike)
      .add_words("pace", words.pace)
      .add_words("access", words.access)
      .add_words("caution", words.caution)
      .text();
}

std::string no_pot_sentence(coach::NoPot why, coach::BallSet blockers, const coach::Access* barrier,
                            const coach::Layout& layout) {
  return "It does not go from here: " + lesson::why_no_pot(why, blockers, barrier, layout) + '.';
}

std::string no_pot_text(const coach::LiveShot& shot, const coach::Layout& layout) {
  if (!shot.pot) return "null";
  const coach::LivePot& pot = *shot.pot;
  std::string detail = "It is not on: another ball has to be played first.";
  if (pot.on && pot.no_pot) {
    const coach::Access* barrier = shot.access.blocked ? &shot.access : nullptr;
    detail = no_pot_sentence(*pot.no_pot, pot.blockers, barrier, layout);
  }
  return formats::no_pot_text(pot.no_pot, pot.on, pot.blockers, layout, detail);
}

Reply shot(Workbench& workbench, const Request& request) {
  const auto question = formats::read_shot_question(request.body);
  if (!question) return bad_input(question.error());
  const auto& [table, live, with_face] = *question;
  const auto& pot = live.pot;
  const coach::Scene scene = workbench.known.scene(
      table.layout, pot ? std::optional(pot->ball) : std::nullopt, table.player);
  const coach::Position position = coach::position_of(table.layout);
  const auto way =
      pot ? workbench.known.way(scene, position, pot->ball, pot->pocket) : std::nullopt;
  const coach::LiveShot answer = coach::live_shot(scene, position, live, way ? &*way : nullptr);

  formats::LiveParts parts{.no_pot = no_pot_text(answer, table.layout), .words = "null"};
  if (answer.option) {
    parts.contours =
        contours_of(answer.option->landings, table.layout.table, lesson::coarse_lattice_m);
    parts.words = words_text(lesson::strike_words(*answer.option, table.layout, table.player));
  } else if (answer.strike) {
    parts.words = words_text(lesson::strike_words(*answer.strike, answer.access, answer.intended,
                                                  table.layout, table.player));
  }
  if (with_face && answer.strike) {
    parts.face = coach::face_of(scene, position, answer.strike->aim_rad);
  }
  return json_reply(formats::live_shot_text(answer, live, table.layout, parts));
}

Reply pots(Workbench& workbench, const Request& request) {
  const auto question = formats::read_pots_question(request.body);
  if (!question) return bad_input(question.error());
  const coach::Layout& layout = question->layout;
  // On an open table each colour has its own task.
  std::vector<coach::PlainPot> all;
  std::vector<coach::ToPlay> done;
  for (int ball = 1; ball < static_cast<int>(layout.balls.size()); ++ball) {
    const coach::ToPlay colour = coach::colour_played(layout, ball);
    if (colour == coach::ToPlay::black && layout.to_play == coach::ToPlay::open) continue;
    if (std::ranges::find(done, colour) != done.end()) continue;
    done.push_back(colour);
    const coach::Scene scene = workbench.known.scene(layout, ball, question->player);
    const auto some = coach::plain_pots(scene, coach::position_of(layout));
    all.insert(all.end(), some.begin(), some.end());
  }
  std::ranges::stable_sort(all, std::greater{}, &coach::PlainPot::first_order);
  return json_reply(formats::plain_pots_text(all, layout));
}

std::string leave_strike_text(const coach::ShotOption& option, const std::string& leave,
                              const formats::TableQuestion& table) {
  return JsonObject()
      .add("option", formats::option_text(option, table.layout))
      .add("contours", formats::contours_text(contours_of(option.landings, table.layout.table)))
      .add("moves", formats::moves_text(option.intended, table.layout))
      .add("words", words_text(lesson::strike_words(option, table.layout, table.player)))
      .add("leave", leave)
      .text();
}

std::string leaves_text(const std::string& no_pot, const JsonList& strikes) {
  return JsonObject().add("no_pot", no_pot).add("strikes", strikes.text()).text();
}

Reply full_leaves(const coach::Scene& scene, const formats::LeaveQuestion& question) {
  const coach::Layout& layout = question.table.layout;
  const coach::PotAnalysis analysis =
      coach::analyse_pot(scene, coach::position_of(layout), question.pot.ball, question.pot.pocket,
                         question.wanted, question.table.seed);
  const auto loss = coach::face_loss(analysis.face);
  const std::string detail = analysis.no_pot
                                 ? no_pot_sentence(*analysis.no_pot, analysis.blockers,
                                                   loss ? &loss->typical : nullptr, layout)
                                 : "";
  JsonList strikes;
  for (const coach::AnalysedStrike& one : analysis.strikes) {
    strikes.add(leave_strike_text(
        one.option, one.leave ? formats::leave_facts_text(*one.leave) : "null", question.table));
  }
  return json_reply(leaves_text(
      formats::no_pot_text(analysis.no_pot, true, analysis.blockers, layout, detail), strikes));
}

// While the hand drags: one family of strikes, climbed twice.
constexpr coach::LeaveCare quick_care{.first_rivals = 10,
                                      .first_tries = 16,
                                      .climb = {.climbers = 1, .rounds = 2, .tries = 64},
                                      .last_rivals = 3,
                                      .last_tries = 100};

Reply quick_leaves(Workbench& workbench, const coach::Scene& scene,
                   const formats::LeaveQuestion& question) {
  const coach::Layout& layout = question.table.layout;
  const coach::Position position = coach::position_of(layout);
  const auto way = workbench.known.way(scene, position, question.pot.ball, question.pot.pocket);
  // What stands in the way of the pot is what a live answer says of it.
  const coach::LiveShot plain =
      coach::live_shot(scene, position, {.pot = question.pot}, way ? &*way : nullptr);
  JsonList strikes;
  if (plain.pot->no_pot || !question.wanted) {
    return json_reply(leaves_text(no_pot_text(plain, layout), strikes));
  }
  const coach::Worth worth(scene, position, question.pot.ball, *question.wanted);
  const std::uint64_t seed = question.table.seed;
  for (const coach::LeaveStrike& one :
       coach::search_leave(scene, position, *way, worth, seed, quick_care)) {
    const coach::Call call = coach::call_of(one.prospect);
    coach::ShotOption option = coach::described_but_face(scene, position, call);
    coach::add_tries(option,
                     coach::tries_of(scene, position, call, quick_care.last_tries, seed + 1));
    const int landed = static_cast<int>(std::lround(one.chance * one.tries));
    strikes.add(leave_strike_text(
        option, formats::quick_leave_text(coach::chance_of(landed, one.tries)), question.table));
  }
  return json_reply(leaves_text(no_pot_text(plain, layout), strikes));
}

Reply leaves(Workbench& workbench, const Request& request) {
  const auto question = formats::read_leave_question(request.body);
  if (!question) return bad_input(question.error());
  const coach::Scene scene =
      workbench.known.scene(question->table.layout, question->pot.ball, question->table.player);
  const coach::Position position = coach::position_of(question->table.layout);
  if (!coach::has(coach::balls_on(scene.task, position.present), question->pot.ball)) {
    return json_reply(
        leaves_text(formats::no_pot_text(std::nullopt, false, 0, question->table.layout,
                                         "It is not on: another ball has to be played first."),
                    {}));
  }
  if (question->quick && question->wanted) return quick_leaves(workbench, scene, *question);
  const auto slot = workbench.plans.take();
  if (!slot) return busy("other plans and searches");
  return full_leaves(scene, *question);
}

std::string list_text(const std::vector<std::string>& lines) {
  JsonList list;
  for (const std::string& line : lines) list.add_words(line);
  return list.text();
}

/// The words call a ball by its name, the page by its id.
std::string id_named(std::string_view name, const coach::Layout& layout) {
  const auto named = std::ranges::find_if(layout.balls, [&](const coach::LayoutBall& ball) {
    return lesson::capitalised(lesson::ball_name(ball.id)) == name;
  });
  return named->id;
}

std::string reading_words_text(const coach::Reading& reading) {
  const lesson::ReadingWords words = lesson::reading_words(reading);
  JsonList own;
  for (const lesson::BallWords& ball : words.own) {
    own.add(JsonObject()
                .add_words("ball", id_named(ball.name, reading.layout))
                .add_words("name", ball.name)
                .add("sentences", list_text(ball.sentences))
                .text());
  }
  return JsonObject()
      .add_words("choice", words.choice)
      .add("reasons", list_text(words.reasons))
      .add("rules", list_text(words.rules))
      .add("own", own.text())
      .add("others", list_text(words.others))
      .text();
}

Reply read(Workbench& workbench, const Request& request) {
  const auto question = formats::read_table_question(request.body);
  if (!question) return bad_input(question.error());
  const auto slot = workbench.plans.take();
  if (!slot) return busy("other plans and searches");
  const coach::Reading reading =
      coach::read_table(question->layout, question->player, question->seed);
  return json_reply(JsonObject()
                        .add("reading", formats::write_reading(reading))
                        .add("words", reading_words_text(reading))
                        .text());
}

Reply simulate(Workbench& workbench, const Request& request) {
  const auto question = formats::read_strike_question(request.body);
  if (!question) return bad_input(question.error());
  const auto& [layout, strike] = *question;
  const coach::Scene scene = workbench.known.scene(layout, std::nullopt, {});
  const coach::Played played = coach::play(scene.field, coach::position_of(layout), strike);
  return json_reply(formats::write_shot(played.shot, layout));
}

Reply view(Workbench& /*workbench*/, const Request& request) {
  const auto plan = formats::read_plan(request.body, "request");
  return plan ? json_reply(plan_view_text(*plan)) : bad_input(plan.error());
}

}  // namespace

std::span<const Route> coach_routes() {
  static constexpr std::array routes{
      Route{"POST", "/api/read", read},         Route{"POST", "/api/pots", pots},
      Route{"POST", "/api/shot", shot},         Route{"POST", "/api/leaves", leaves},
      Route{"POST", "/api/simulate", simulate}, Route{"POST", "/api/view", view}};
  return routes;
}

}  // namespace ahead::server
