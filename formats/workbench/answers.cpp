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
#include "formats/workbench/json_object.h"

namespace ahead::formats {
namespace {

using engine::Stretch;
using nlohmann::ordered_json;

constexpr double most_between_rows_s = 0.04;

const std::string& id_of(const coach::Layout& layout, int ball) {
  return layout.balls[static_cast<std::size_t>(ball)].id;
}

ordered_json json_of_ring(const std::vector<engine::Vec2>& ring) {
  ordered_json list = ordered_json::array();
  for (const engine::Vec2 place : ring) list.push_back(json_of(place, 1));
  return list;
}

ordered_json json_of_rings(const std::vector<std::vector<engine::Vec2>>& rings) {
  ordered_json list = ordered_json::array();
  for (const auto& ring : rings) list.push_back(json_of_ring(ring));
  return list;
}

ordered_json json_of_contours(const Contours& contours) {
  return {{"half", json_of_rings(contours.half)}, {"most", json_of_rings(contours.most)}};
}

ordered_json row(double t_s, const engine::BallState& state, engine::Phase phase, double radius_m) {
  return ordered_json::array({rounded(t_s, 5), rounded(mm(state.position.x), 1),
                              rounded(mm(state.position.y), 1),
                              rounded(mm(state.position.z - radius_m), 1),
                              rounded(engine::norm(state.velocity), 3), static_cast<int>(phase)});
}

/// Rows of the stretches of one ball; between them it may lie still.
ordered_json json_of_path(const std::vector<Stretch>& stretches, const engine::Table& table) {
  ordered_json path = ordered_json::array();
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
      path.push_back(row(t_s, state_at(stretch, table, t_s), stretch.phase, radius_m));
    }
    const bool goes_on = i + 1 < stretches.size() && stretches[i + 1].t0_s == stretch.t1_s;
    if (!goes_on && span_s > 0) {
      path.push_back(
          row(stretch.t1_s, state_at(stretch, table, stretch.t1_s), engine::Phase::rest, radius_m));
    }
  }
  return path;
}

ordered_json json_of_event(const engine::Event& event, const coach::Layout& before) {
  ordered_json balls = ordered_json::array({id_of(before, event.ball)});
  if (event.other >= 0) balls.push_back(id_of(before, event.other));
  return {{"t", rounded(event.t_s, 5)},
          {"kind", name_of(event.kind)},
          {"balls", std::move(balls)},
          {"at", json_of(plan(event.at), 1)}};
}

ordered_json json_of_moves(const engine::Shot& shot, const coach::Layout& before) {
  std::vector<std::vector<Stretch>> paths(shot.endings.size());
  for (const Stretch& stretch : shot.stretches) {
    paths[static_cast<std::size_t>(stretch.ball)].push_back(stretch);
  }
  ordered_json balls = ordered_json::array();
  for (std::size_t i = 0; i < paths.size(); ++i) {
    if (paths[i].empty()) continue;
    const engine::Ending& ending = shot.endings[i];
    ordered_json ball;
    ball["ball"] = before.balls[i].id;
    ball["end"] = ending.on_table() ? json_of(plan(ending.position), 1) : ordered_json(nullptr);
    ball["pocket"] = nullptr;
    if (ending.off_table) ball["pocket"] = "off-table";
    if (ending.pocket >= 0) {
      ball["pocket"] = name_of(before.table.pockets[static_cast<std::size_t>(ending.pocket)].name);
    }
    ball["path"] = json_of_path(paths[i], before.table);
    balls.push_back(std::move(ball));
  }
  ordered_json events = ordered_json::array();
  for (const engine::Event& event : shot.events) events.push_back(json_of_event(event, before));
  return {{"balls", std::move(balls)},
          {"events", std::move(events)},
          {"still_s", rounded(shot.still_s, 4)}};
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
  const auto left = [&](coach::Colour colour) {
    return std::ranges::any_of(
        later.balls, [&](const coach::LayoutBall& ball) { return ball.colour == colour; });
  };
  using coach::Colour;
  using coach::ToPlay;
  const bool black = left(Colour::black);
  const auto or_black = [&](bool own) -> std::optional<coach::Layout> {
    if (own) return later;
    if (!black) return std::nullopt;
    later.to_play = ToPlay::black;
    return later;
  };
  switch (before.to_play) {
    case ToPlay::red:
      return or_black(left(Colour::red));
    case ToPlay::yellow:
      return or_black(left(Colour::yellow));
    case ToPlay::solid:
      return or_black(left(Colour::solid));
    case ToPlay::stripe:
      return or_black(left(Colour::stripe));
    case ToPlay::black:
      return or_black(false);
    case ToPlay::open:
    case ToPlay::colours:
      break;
  }
  return later.balls.size() > 1 ? std::optional(later) : std::nullopt;
}

ordered_json json_of_strike(const std::optional<engine::Strike>& strike) {
  return strike ? json_of(*strike) : ordered_json(nullptr);
}

}  // namespace

std::string contours_text(const Contours& contours) { return json_of_contours(contours).dump(); }

std::string moves_text(const engine::Shot& shot, const coach::Layout& before) {
  return json_of_moves(shot, before).dump();
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
  ordered_json facts = option != nullptr ? json_of(*option, layout) : ordered_json::object();
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
  json.add("landings", option != nullptr ? fact("landings") : "[]");
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
