#include "formats/workbench/answers.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include <nlohmann/json.hpp>

#include "coach/rules/visit.h"
#include "engine/simulate/stretch.h"
#include "formats/access.h"
#include "formats/json_print.h"
#include "formats/names.h"
#include "formats/pot_analysis.h"
#include "formats/shot_option.h"
#include "formats/units.h"
#include "formats/values.h"
#include "formats/workbench/json_number.h"
#include "formats/workbench/json_object.h"

namespace ahead::formats {
namespace {

using engine::Stretch;
using nlohmann::ordered_json;

constexpr double most_between_rows_s = 0.04;

void append_place(std::string& text, engine::Vec2 place) {
  text += '[';
  append_number(text, mm(place.x), 1);
  text += ',';
  append_number(text, mm(place.y), 1);
  text += ']';
}

void append_ring(std::string& text, const std::vector<engine::Vec2>& ring) {
  text += '[';
  for (const engine::Vec2 place : ring) {
    append_place(text, place);
    text += ',';
  }
  if (!ring.empty()) text.pop_back();
  text += ']';
}

void append_rings(std::string& text, const std::vector<std::vector<engine::Vec2>>& rings) {
  text += '[';
  for (const auto& ring : rings) {
    append_ring(text, ring);
    text += ',';
  }
  if (!rings.empty()) text.pop_back();
  text += ']';
}

void append_row(std::string& text, double t_s, const engine::BallState& state, engine::Phase phase,
                double radius_m) {
  text += text.back() == '[' ? "[" : ",[";
  append_number(text, t_s, 5);
  for (const double part : {state.position.x, state.position.y, state.position.z - radius_m}) {
    text += ',';
    append_number(text, mm(part), 1);
  }
  text += ',';
  append_number(text, engine::norm(state.velocity), 3);
  text += ',';
  append_number(text, static_cast<int>(phase), 0);
  text += ']';
}

/// Rows of the stretches of one ball; between them it may lie still.
void append_path(std::string& text, const std::vector<Stretch>& stretches,
                 const engine::Table& table) {
  text += '[';
  for (std::size_t i = 0; i < stretches.size(); ++i) {
    const Stretch& stretch = stretches[i];
    const double radius_m = engine::ball_of(table, stretch.ball).radius_m;
    const double span_s = stretch.t1_s - stretch.t0_s;
    const bool moves =
        stretch.phase != engine::Phase::rest && stretch.phase != engine::Phase::spinning;
    const int steps =
        moves ? std::max(1, static_cast<int>(std::ceil(span_s / most_between_rows_s))) : 1;
    for (int step = 0; step < steps; ++step) {
      const double t_s = stretch.t0_s + span_s * step / steps;
      append_row(text, t_s, state_at(stretch, table, t_s), stretch.phase, radius_m);
    }
    const bool goes_on = i + 1 < stretches.size() && stretches[i + 1].t0_s == stretch.t1_s;
    if (!goes_on && span_s > 0) {
      append_row(text, stretch.t1_s, state_at(stretch, table, stretch.t1_s), engine::Phase::rest,
                 radius_m);
    }
  }
  text += ']';
}

std::string event_text(const engine::Event& event, const coach::Layout& before) {
  JsonList balls;
  balls.add_words(id_of(before, event.ball));
  if (event.other >= 0) balls.add_words(id_of(before, event.other));
  std::string t;
  append_number(t, event.t_s, 5);
  std::string at;
  append_place(at, plan(event.at));
  return JsonObject()
      .add("t", t)
      .add_words("kind", name_of(event.kind))
      .add("balls", balls.text())
      .add("at", at)
      .text();
}

std::string move_text(const engine::Ending& ending, std::size_t ball,
                      const std::vector<Stretch>& stretches, const coach::Layout& before) {
  std::string end = ending.on_table() ? "" : "null";
  if (ending.on_table()) append_place(end, plan(ending.position));
  std::string pocket = ending.off_table ? R"("off-table")" : "null";
  if (ending.pocket >= 0) {
    pocket =
        json_string(name_of(before.table.pockets[static_cast<std::size_t>(ending.pocket)].name));
  }
  std::string path;
  append_path(path, stretches, before.table);
  return JsonObject()
      .add_words("ball", before.balls[ball].id)
      .add("end", end)
      .add("pocket", pocket)
      .add("path", path)
      .text();
}

/// The layout after a shot, if there is something to play from there.
std::optional<coach::Layout> layout_after(const coach::Layout& before,
                                          const coach::Position& leaves) {
  if (!coach::has(leaves.present, 0)) return std::nullopt;
  coach::Layout later = before;
  later.note.clear();
  later.balls.clear();
  for (std::size_t i = 0; i < before.balls.size(); ++i) {
    if (!coach::has(leaves.present, static_cast<int>(i))) continue;
    later.balls.push_back(before.balls[i]);
    if (leaves.at[i] != before.balls[i].at) {
      later.balls.back().at = leaves.at[i];
      later.balls.back().sigma_m = 0;
    }
  }
  later.to_play = coach::left_to_play(later, before.to_play);
  const bool any = std::ranges::any_of(later.balls, [&](const coach::LayoutBall& ball) {
    return ball.colour != coach::Colour::cue &&
           (ball.colour == coach::Colour::black || later.to_play != coach::ToPlay::black);
  });
  return any ? std::optional(later) : std::nullopt;
}

ordered_json json_of_strike(const std::optional<engine::Strike>& strike) {
  return strike ? json_of(*strike) : ordered_json(nullptr);
}

}  // namespace

std::string contours_text(const Contours& contours) {
  std::string half;
  append_rings(half, contours.half);
  std::string most;
  append_rings(most, contours.most);
  return JsonObject().add("half", half).add("most", most).text();
}

std::string moves_text(const engine::Shot& shot, const coach::Layout& before) {
  std::vector<std::vector<Stretch>> paths(shot.endings.size());
  for (const Stretch& stretch : shot.stretches) {
    paths[static_cast<std::size_t>(stretch.ball)].push_back(stretch);
  }
  JsonList balls;
  for (std::size_t i = 0; i < paths.size(); ++i) {
    if (!paths[i].empty()) balls.add(move_text(shot.endings[i], i, paths[i], before));
  }
  JsonList events;
  for (const engine::Event& event : shot.events) events.add(event_text(event, before));
  std::string still_s;
  append_number(still_s, shot.still_s, 4);
  return JsonObject()
      .add("balls", balls.text())
      .add("events", events.text())
      .add("still_s", still_s)
      .text();
}

std::string face_text(const coach::Face& face, const coach::Layout& before) {
  return json_of(face, before).dump();
}

std::string layout_text(const coach::Layout& layout) { return json_of(layout).dump(); }

std::string layout_after_text(const coach::Layout& before, const coach::Position& leaves) {
  const auto later = layout_after(before, leaves);
  return later ? layout_text(*later) : "null";
}

std::string option_text(const coach::ShotOption& option, const coach::Layout& before) {
  return json_of(option, before).dump();
}

std::string no_pot_text(const std::optional<coach::NoPot>& why, bool on, coach::BallSet blockers,
                        const coach::Layout& layout, std::string_view detail) {
  if (!why && on) return "null";
  ordered_json balls = ordered_json::array();
  for (int ball = 0; ball < static_cast<int>(layout.balls.size()); ++ball) {
    if (coach::has(blockers, ball)) balls.push_back(id_of(layout, ball));
  }
  return ordered_json{
      {"why", on ? name_of(*why) : "not-on"}, {"blockers", std::move(balls)}, {"detail", detail}}
      .dump();
}

std::string leave_facts_text(const coach::LeaveFacts& facts) { return json_of(facts).dump(); }

std::string quick_leave_text(const coach::Chance& lands) {
  return ordered_json{{"lands", json_of(lands)},
                      {"tolerance", nullptr},
                      {"misses", ordered_json::array()},
                      {"line", nullptr}}
      .dump();
}

std::string live_shot_text(const coach::LiveShot& shot, const coach::LiveQuestion& question,
                           const coach::Layout& layout, const LiveParts& parts) {
  const coach::LivePot* pot = shot.pot ? &*shot.pot : nullptr;
  const coach::ShotOption* option = shot.option ? &*shot.option : nullptr;
  ordered_json facts =
      option != nullptr ? json_but_landings(*option, layout) : ordered_json::object();
  const auto fact = [&](const char* key) {
    const auto found = facts.find(key);
    return found == facts.end() ? std::string("null") : found->dump();
  };
  const bool tried = option != nullptr && question.tries > 0;
  JsonObject json;
  json.add("no_pot", parts.no_pot);
  json.add("call",
           question.pot
               ? ordered_json{{"ball", id_of(layout, question.pot->ball)},
                              {"pocket",
                               name_of(layout.table
                                           .pockets[static_cast<std::size_t>(question.pot->pocket)]
                                           .name)}}
                     .dump()
               : "null");
  json.add("strike", json_of_strike(shot.strike).dump());
  json.add("chance_first_order", pot != nullptr && shot.strike
                                     ? ordered_json(rounded(pot->first_order, 4)).dump()
                                     : "null");
  json.add("pot", tried ? fact("pot") : "null");
  json.add("fates", tried ? fact("fates") : "null");
  for (const char* key : {"cut_deg", "cut_to_left", "thickness", "to_ball_mm", "to_pocket_mm"}) {
    json.add(key, fact(key));
  }
  const bool seen = pot != nullptr && pot->ghost;
  json.add("ghost", seen ? json_of(*pot->ghost, 1).dump() : "null");
  json.add("tangent_deg",
           seen ? ordered_json(rounded(degrees(pot->tangent_rad), 3)).dump() : "null");
  json.add("gate_deg", pot != nullptr && pot->gate
                           ? ordered_json::array({rounded(degrees(pot->gate->from_rad), 3),
                                                  rounded(degrees(pot->gate->to_rad), 3)})
                                 .dump()
                           : "null");
  json.add("cue_path", fact("cue_path"));
  json.add("access", shot.strike ? json_of(shot.access, layout).dump() : "null");
  json.add("face", face_text(parts.face, layout));
  json.add("moves", shot.strike ? moves_text(shot.intended, layout) : "null");
  std::string landings;
  append_ring(landings, option != nullptr ? option->landings : std::vector<engine::Vec2>{});
  json.add("landings", landings);
  json.add("contours", contours_text(parts.contours));
  json.add("after", shot.strike ? layout_after_text(layout, shot.leaves) : "null");
  json.add("words", parts.words);
  return json.text();
}

std::string plain_pots_text(const std::vector<coach::PlainPot>& pots, const coach::Layout& layout) {
  ordered_json list = ordered_json::array();
  for (const coach::PlainPot& one : pots) {
    list.push_back(
        {{"ball", id_of(layout, one.pot.ball)},
         {"pocket", name_of(layout.table.pockets[static_cast<std::size_t>(one.pot.pocket)].name)},
         {"chance_first_order", rounded(one.first_order, 4)},
         {"strike", json_of(one.strike)}});
  }
  return ordered_json{{"pots", std::move(list)}}.dump();
}

}  // namespace ahead::formats
