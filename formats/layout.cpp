#include "formats/layout.h"

#include <nlohmann/json.hpp>

#include "engine/equipment/presets.h"
#include "formats/document.h"
#include "formats/json_print.h"
#include "formats/layout_checks.h"
#include "formats/names.h"
#include "formats/units.h"
#include "formats/values.h"

namespace ahead::formats {
namespace {

using nlohmann::ordered_json;

// Wide enough that a ball off the bed is told so, and not that its number is out of range.
constexpr Range coordinate_mm{.least = -1e6, .most = 1e6, .unit = "mm", .decimals = 3};
constexpr std::size_t most_balls = 32;

engine::Table named_or_whole_table(const Field& field) {
  if (field.is_object()) return table_of(field);
  if (!field.is_text()) field.refuse_kind("a table's name or a whole table");
  const auto ids = engine::table_preset_ids();
  return *engine::table_preset(ids[field.choice(ids)]);
}

}  // namespace

coach::LayoutBall layout_ball_of(const Field& field) {
  const Keys keys(field, {"id", "at", "sigma_mm"});
  const Field id = keys.required("id");
  const auto colour = coach::colour_of_id(id.text());
  if (!colour) refuse(unknown_ball(id.where(), id.text()));
  constexpr Range sigma_mm{.least = 0, .most = 100, .unit = "mm", .decimals = 3};
  return {.id = id.text(),
          .colour = *colour,
          .at = keys.required("at").point_m(coordinate_mm),
          .sigma_m = m_of_mm * keys.number_or("sigma_mm", sigma_mm, 0)};
}

coach::Layout bare_layout_of(const Field& field, const std::optional<engine::Table>& instead) {
  expect_format(field, layout_format);
  const Keys keys(field, {"format", "note", "table", "rules", "to_play", "balls"});
  coach::Layout layout;
  if (const auto note = keys.optional("note")) layout.note = note->text();
  const Field table = keys.required("table");
  layout.table = instead ? *instead : named_or_whole_table(table);
  layout.rules = static_cast<coach::Rules>(keys.required("rules").choice(rules_names));
  layout.to_play = static_cast<coach::ToPlay>(keys.required("to_play").choice(to_play_names));
  for (const Field& ball :
       keys.required("balls").items({.least = 0, .most = most_balls, .words = "up to 32 balls"})) {
    layout.balls.push_back(layout_ball_of(ball));
  }
  return layout;
}

coach::Layout layout_of(const Field& field, const std::optional<engine::Table>& instead) {
  coach::Layout layout = bare_layout_of(field, instead);
  settle_layout(layout, field.where());
  return layout;
}

ordered_json json_of(const coach::LayoutBall& ball) {
  ordered_json json = {{"id", ball.id}, {"at", json_of(ball.at)}};
  if (ball.sigma_m > 0) json["sigma_mm"] = rounded(mm(ball.sigma_m), 3);
  return json;
}

ordered_json json_of(const coach::Layout& layout) {
  ordered_json json;
  json["format"] = layout_format;
  if (!layout.note.empty()) json["note"] = layout.note;
  json["table"] = short_json_of(layout.table);
  json["rules"] = name_of(layout.rules);
  json["to_play"] = name_of(layout.to_play);
  json["balls"] = ordered_json::array();
  for (const coach::LayoutBall& ball : layout.balls) json["balls"].push_back(json_of(ball));
  return json;
}

std::expected<coach::Layout, InputError> read_layout(std::string_view text, std::string_view file,
                                                     const std::optional<engine::Table>& instead) {
  return read_document<coach::Layout>(
      text, file, [&](const Field& document) { return layout_of(document, instead); });
}

std::string write_layout(const coach::Layout& layout) { return print_json(json_of(layout)); }

}  // namespace ahead::formats
