#include "formats/table.h"

#include <algorithm>
#include <cmath>

#include <nlohmann/json.hpp>

#include "engine/equipment/presets.h"
#include "formats/document.h"
#include "formats/json_print.h"
#include "formats/names.h"
#include "formats/table_checks.h"
#include "formats/units.h"
#include "formats/values.h"

namespace ahead::formats {
namespace {

using nlohmann::ordered_json;

// A coordinate anywhere on or around the largest table.
constexpr Range coordinate_mm{.least = -1000, .most = 10000, .unit = "mm"};
constexpr Range side_mm{.least = 300, .most = 6000, .unit = "mm"};
constexpr Range radius_mm{.least = 0, .most = 1000, .unit = "mm", .open = true};
constexpr Range fall_radius_mm{.least = 0, .most = 200, .unit = "mm", .open = true};
constexpr Range angle_deg{.least = -720, .most = 720, .unit = "degrees", .decimals = 8};
constexpr std::size_t most_rails = 500;

engine::RailSegment segment_of(const Field& field) {
  const auto ends = field.items({.least = 2, .most = 2, .words = "two points, [[x, y], [x, y]]"});
  const engine::RailSegment segment{.from = ends[0].point_m(coordinate_mm),
                                    .to = ends[1].point_m(coordinate_mm)};
  if (segment.from == segment.to) refuse(rail_without_length(field.where()));
  return segment;
}

engine::RailArc arc_of(const Field& field) {
  const Keys keys(field, {"centre", "radius", "from_deg", "to_deg"});
  const double from_deg = keys.required("from_deg").number(angle_deg);
  const double to_deg = keys.required("to_deg").number(angle_deg);
  if (std::fmod(to_deg - from_deg, 360) == 0) refuse(arc_without_length(field.where(), from_deg));
  return {.centre = keys.required("centre").point_m(coordinate_mm),
          .radius_m = m_of_mm * keys.required("radius").number(radius_mm),
          .from_rad = rad_of_deg * from_deg,
          .to_rad = rad_of_deg * to_deg};
}

engine::Rail rail_of(const Field& field) {
  const Keys keys(field, {"segment", "arc"});
  const auto segment = keys.optional("segment");
  const auto arc = keys.optional("arc");
  if (segment.has_value() == arc.has_value()) refuse(rail_of_no_shape(field.where()));
  if (segment) return segment_of(*segment);
  return arc_of(*arc);
}

engine::Pocket pocket_of(const Field& field) {
  const Keys keys(field, {"name", "centre", "fall_radius"});
  return {
      .name = static_cast<engine::PocketName>(keys.required("name").choice(engine::pocket_names)),
      .centre = keys.required("centre").point_m(coordinate_mm),
      .fall_radius_m = m_of_mm * keys.required("fall_radius").number(fall_radius_mm)};
}

engine::Ball ball_of(const Field& field) {
  const Keys keys(field, {"diameter_mm", "mass_g"});
  const double diameter_mm =
      keys.required("diameter_mm").number({.least = 10, .most = 150, .unit = "mm"});
  const double mass_g = keys.required("mass_g").number({.least = 1, .most = 1000, .unit = "g"});
  return {.radius_m = m_of_mm * diameter_mm / 2, .mass_kg = kg_of_g * mass_g};
}

engine::Cloth cloth_of(const Field& field) {
  const Keys keys(field,
                  {"sliding", "rolling", "nap", "spin_decay", "bed_restitution", "hop_speed"});
  engine::Cloth cloth;
  cloth.sliding = keys.number_or("sliding", {.least = 0.01, .most = 1}, cloth.sliding);
  cloth.rolling = keys.number_or("rolling", {.least = 0.0005, .most = 0.2}, cloth.rolling);
  cloth.nap = keys.number_or("nap", {.least = 0, .most = 0.1}, cloth.nap);
  cloth.spin_decay_radps2 = keys.number_or(
      "spin_decay", {.least = 0.1, .most = 200, .unit = "rad/s^2"}, cloth.spin_decay_radps2);
  cloth.bed_restitution =
      keys.number_or("bed_restitution", {.least = 0, .most = 0.95}, cloth.bed_restitution);
  cloth.hop_speed_mps =
      keys.number_or("hop_speed", {.least = 0.001, .most = 2, .unit = "m/s"}, cloth.hop_speed_mps);
  return cloth;
}

engine::BallContact ball_contact_of(const Field& field) {
  const Keys keys(field, {"restitution", "friction", "young_gpa", "poisson"});
  engine::BallContact contact;
  contact.restitution =
      keys.number_or("restitution", {.least = 0.5, .most = 1}, contact.restitution);
  if (const auto friction = keys.optional("friction")) {
    const auto abc = friction->items({.least = 3, .most = 3, .words = "three numbers, [a, b, c]"});
    contact.friction_a = abc[0].number({.least = 0, .most = 1});
    contact.friction_b = abc[1].number({.least = 0, .most = 1});
    contact.friction_c = abc[2].number({.least = 0, .most = 100, .unit = "s/m"});
  }
  contact.young_gpa =
      keys.number_or("young_gpa", {.least = 0.1, .most = 500, .unit = "GPa"}, contact.young_gpa);
  contact.poisson = keys.number_or("poisson", {.least = 0, .most = 0.49}, contact.poisson);
  return contact;
}

engine::Cushion cushion_of(const Field& field) {
  const Keys keys(field, {"restitution", "friction"});
  engine::Cushion cushion;
  cushion.restitution =
      keys.number_or("restitution", {.least = 0.1, .most = 1}, cushion.restitution);
  cushion.friction = keys.number_or("friction", {.least = 0, .most = 1}, cushion.friction);
  return cushion;
}

engine::Cue cue_of(const Field& field) {
  const Keys keys(
      field, {"restitution", "mass", "end_mass", "miscue_offset", "tip_radius_mm", "tip_width_mm"});
  constexpr Range tip_mm{.least = 2, .most = 40, .unit = "mm"};
  engine::Cue cue;
  cue.restitution = keys.number_or("restitution", {.least = 0.1, .most = 1}, cue.restitution);
  cue.mass_kg = keys.number_or("mass", {.least = 0.1, .most = 2, .unit = "kg"}, cue.mass_kg);
  cue.end_mass_kg =
      keys.number_or("end_mass", {.least = 0.0001, .most = 0.1, .unit = "kg"}, cue.end_mass_kg);
  cue.miscue_offset =
      keys.number_or("miscue_offset", {.least = 0.1, .most = 0.8}, cue.miscue_offset);
  cue.tip_radius_m = m_of_mm * keys.number_or("tip_radius_mm", tip_mm, mm(cue.tip_radius_m));
  cue.tip_width_m = m_of_mm * keys.number_or("tip_width_mm", tip_mm, mm(cue.tip_width_m));
  return cue;
}

engine::Markings markings_of(const Field& field) {
  const Keys keys(field, {"baulk_line_mm", "spot_mm"});
  return {.baulk_line_m = m_of_mm * keys.required("baulk_line_mm").number(coordinate_mm),
          .spot = keys.required("spot_mm").point_m(coordinate_mm)};
}

ordered_json json_of_length(double m) { return rounded(mm(m), 6); }

ordered_json json_of_ball(const engine::Ball& ball) {
  return {{"diameter_mm", json_of_length(2 * ball.radius_m)},
          {"mass_g", rounded(grams(ball.mass_kg), 6)}};
}

ordered_json json_of_rail(const engine::Rail& rail) {
  if (const auto* segment = std::get_if<engine::RailSegment>(&rail)) {
    ordered_json json;
    json["segment"] = ordered_json::array({json_of(segment->from, 6), json_of(segment->to, 6)});
    return json;
  }
  const auto& arc = std::get<engine::RailArc>(rail);
  ordered_json json;
  json["arc"] = {{"centre", json_of(arc.centre, 6)},
                 {"radius", json_of_length(arc.radius_m)},
                 {"from_deg", rounded(degrees(arc.from_rad), 8)},
                 {"to_deg", rounded(degrees(arc.to_rad), 8)}};
  return json;
}

ordered_json json_of_pocket(const engine::Pocket& pocket) {
  return {{"name", name_of(pocket.name)},
          {"centre", json_of(pocket.centre, 6)},
          {"fall_radius", json_of_length(pocket.fall_radius_m)}};
}

template <class Values, class Convert>
ordered_json list_of(const Values& values, const Convert& convert) {
  ordered_json list = ordered_json::array();
  for (const auto& value : values) list.push_back(convert(value));
  return list;
}

}  // namespace

engine::Table table_of(const Field& field) {
  expect_format(field, table_format);
  const Keys keys(field, {"format", "id", "playing_area_mm", "nose_height_mm", "rails", "pockets",
                          "balls", "cloth", "ball", "cushion", "cue", "markings", "notes"});
  engine::Table table;
  table.id = keys.required("id").name();
  const auto area = keys.required("playing_area_mm")
                        .items({.least = 2, .most = 2, .words = "two numbers, [width, length]"});
  table.width_m = m_of_mm * area[0].number(side_mm);
  table.length_m = m_of_mm * area[1].number(side_mm);
  table.nose_height_m =
      m_of_mm * keys.required("nose_height_mm").number({.least = 5, .most = 150, .unit = "mm"});
  for (const Field& rail :
       keys.required("rails").items({.least = 1, .most = most_rails, .words = "1 to 500 rails"})) {
    table.rails.push_back(rail_of(rail));
  }
  for (const Field& pocket :
       keys.required("pockets").items({.least = 6, .most = 6, .words = "six pockets"})) {
    table.pockets.push_back(pocket_of(pocket));
  }
  std::ranges::sort(table.pockets, {}, &engine::Pocket::name);
  const Keys balls(keys.required("balls"), {"cue", "object"});
  table.cue_ball = ball_of(balls.required("cue"));
  table.object_ball = ball_of(balls.required("object"));
  if (const auto cloth = keys.optional("cloth")) table.cloth = cloth_of(*cloth);
  if (const auto ball = keys.optional("ball")) table.ball_contact = ball_contact_of(*ball);
  if (const auto cushion = keys.optional("cushion")) table.cushion = cushion_of(*cushion);
  if (const auto cue = keys.optional("cue")) table.cue = cue_of(*cue);
  table.markings = markings_of(keys.required("markings"));
  if (const auto notes = keys.optional("notes")) {
    for (const Field& note : notes->items({.least = 0, .most = 100, .words = "up to 100 texts"})) {
      table.notes.push_back(note.text());
    }
  }
  check_table(table, field.where());
  return table;
}

ordered_json json_of(engine::Vec2 point, int decimals) {
  return ordered_json::array({rounded(mm(point.x), decimals), rounded(mm(point.y), decimals)});
}

ordered_json json_of(const engine::Table& table) {
  const auto coefficient = [](double value) { return rounded(value, 6); };
  const engine::Cloth& cloth = table.cloth;
  const engine::BallContact& contact = table.ball_contact;
  ordered_json json;
  json["format"] = table_format;
  json["id"] = table.id;
  json["playing_area_mm"] =
      ordered_json::array({json_of_length(table.width_m), json_of_length(table.length_m)});
  json["nose_height_mm"] = json_of_length(table.nose_height_m);
  json["rails"] = list_of(table.rails, json_of_rail);
  json["pockets"] = list_of(table.pockets, json_of_pocket);
  json["balls"] = {{"cue", json_of_ball(table.cue_ball)},
                   {"object", json_of_ball(table.object_ball)}};
  json["cloth"] = {{"sliding", coefficient(cloth.sliding)},
                   {"rolling", coefficient(cloth.rolling)},
                   {"nap", coefficient(cloth.nap)},
                   {"spin_decay", coefficient(cloth.spin_decay_radps2)},
                   {"bed_restitution", coefficient(cloth.bed_restitution)},
                   {"hop_speed", coefficient(cloth.hop_speed_mps)}};
  json["ball"] = {{"restitution", coefficient(contact.restitution)},
                  {"friction", ordered_json::array({coefficient(contact.friction_a),
                                                    coefficient(contact.friction_b),
                                                    coefficient(contact.friction_c)})},
                  {"young_gpa", coefficient(contact.young_gpa)},
                  {"poisson", coefficient(contact.poisson)}};
  json["cushion"] = {{"restitution", coefficient(table.cushion.restitution)},
                     {"friction", coefficient(table.cushion.friction)}};
  json["cue"] = {{"restitution", coefficient(table.cue.restitution)},
                 {"mass", coefficient(table.cue.mass_kg)},
                 {"end_mass", coefficient(table.cue.end_mass_kg)},
                 {"miscue_offset", coefficient(table.cue.miscue_offset)},
                 {"tip_radius_mm", json_of_length(table.cue.tip_radius_m)},
                 {"tip_width_mm", json_of_length(table.cue.tip_width_m)}};
  json["markings"] = {{"baulk_line_mm", json_of_length(table.markings.baulk_line_m)},
                      {"spot_mm", json_of(table.markings.spot, 6)}};
  json["notes"] = table.notes;
  return json;
}

ordered_json short_json_of(const engine::Table& table) {
  const auto preset = engine::table_preset(table.id);
  ordered_json json = json_of(table);
  if (preset && json_of(*preset) == json) return table.id;
  return json;
}

std::expected<engine::Table, InputError> read_table(std::string_view text, std::string_view file) {
  return read_document<engine::Table>(text, file, table_of);
}

std::string write_table(const engine::Table& table) { return print_json(json_of(table)); }

}  // namespace ahead::formats
