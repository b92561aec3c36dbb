#include "formats/shot.h"

#include <cmath>
#include <cstddef>
#include <vector>

#include <nlohmann/json.hpp>

#include "engine/simulate/stretch.h"
#include "formats/json_print.h"
#include "formats/names.h"
#include "formats/units.h"
#include "formats/values.h"

namespace ahead::formats {
namespace {

using engine::BallState;
using engine::Stretch;
using nlohmann::ordered_json;

// A hair under the 20 ms that the format promises, so that rounded times keep the promise too.
constexpr double most_between_rows_s = 0.0199;

double rounded_time(double t_s) { return rounded(t_s, 7); }

ordered_json row(double t_s, const BallState& state) {
  const auto length = [](double m) { return rounded(mm(m), 4); };
  const auto speed = [](double mps) { return rounded(mm(mps), 3); };
  const auto spin = [](double radps) { return rounded(radps, 4); };
  const auto& [position, velocity, omega] = state;
  return ordered_json::array({rounded_time(t_s), length(position.x), length(position.y),
                              length(position.z), speed(velocity.x), speed(velocity.y),
                              speed(velocity.z), spin(omega.x), spin(omega.y), spin(omega.z)});
}

void add_rows(const Stretch& stretch, const engine::Table& table, ordered_json& path) {
  const double span_s = stretch.t1_s - stretch.t0_s;
  const auto steps = static_cast<int>(std::ceil(span_s / most_between_rows_s));
  path.push_back(row(stretch.t0_s, stretch.start));
  for (int step = 1; step < steps; ++step) {
    const double t_s = stretch.t0_s + span_s * step / steps;
    path.push_back(row(t_s, state_at(stretch, table, t_s)));
  }
  if (span_s > 0) path.push_back(row(stretch.t1_s, state_at(stretch, table, stretch.t1_s)));
}

ordered_json json_of_path(const engine::Shot& shot, const coach::Layout& layout, int ball) {
  // The record leaves out the times in which a ball just lies there; the file has rows for them, up
  // to the last time that the ball moves.
  const double height_m = engine::ball_of(layout.table, ball).radius_m;
  Stretch lying{.ball = ball, .phase = engine::Phase::rest};
  lying.start.position = engine::lift(layout.balls[static_cast<std::size_t>(ball)].at, height_m);

  ordered_json path = ordered_json::array();
  const std::vector<Stretch> stretches = path_of(shot, ball);
  for (const Stretch& stretch : stretches) {
    if (&stretch == &stretches.back() && stretch.phase == engine::Phase::rest) {
      path.push_back(row(stretch.t0_s, stretch.start));
      return path;
    }
    lying.t1_s = stretch.t0_s;
    if (lying.t1_s > lying.t0_s) add_rows(lying, layout.table, path);
    add_rows(stretch, layout.table, path);
    lying.t0_s = stretch.t1_s;
    lying.start.position = state_at(stretch, layout.table, stretch.t1_s).position;
  }
  if (path.empty()) path.push_back(row(0, lying.start));
  return path;
}

ordered_json json_of_pocket(const engine::Ending& ending, const engine::Table& table) {
  if (ending.off_table) return "off-table";
  if (ending.pocket < 0) return nullptr;
  return name_of(table.pockets[static_cast<std::size_t>(ending.pocket)].name);
}

ordered_json json_of_event(const engine::Event& event, const coach::Layout& layout) {
  const auto id = [&](int ball) { return layout.balls[static_cast<std::size_t>(ball)].id; };
  ordered_json json;
  json["t"] = rounded_time(event.t_s);
  json["kind"] = name_of(event.kind);
  json["balls"] = ordered_json::array({id(event.ball)});
  if (event.other >= 0) json["balls"].push_back(id(event.other));
  json["at"] = json_of(plan(event.at), 4);
  if (event.kind == engine::EventKind::cushion && event.place >= 0) json["rail"] = event.place;
  if (event.kind == engine::EventKind::pot && event.place >= 0) {
    json["pocket"] = name_of(layout.table.pockets[static_cast<std::size_t>(event.place)].name);
  }
  return json;
}

}  // namespace

std::string write_shot(const engine::Shot& shot, const coach::Layout& layout) {
  ordered_json json;
  json["format"] = shot_format;
  json["balls"] = ordered_json::array();
  for (std::size_t i = 0; i < shot.endings.size(); ++i) {
    const engine::Ending& ending = shot.endings[i];
    ordered_json ball;
    ball["id"] = layout.balls[i].id;
    ball["end"] = ending.on_table() ? json_of(plan(ending.position), 4) : ordered_json(nullptr);
    ball["pocket"] = json_of_pocket(ending, layout.table);
    ball["path"] = json_of_path(shot, layout, static_cast<int>(i));
    json["balls"].push_back(std::move(ball));
  }
  json["events"] = ordered_json::array();
  for (const engine::Event& event : shot.events) {
    json["events"].push_back(json_of_event(event, layout));
  }
  json["settled_s"] = rounded_time(shot.settled_s);
  json["still_s"] = rounded_time(shot.still_s);
  return print_json(json);
}

}  // namespace ahead::formats
