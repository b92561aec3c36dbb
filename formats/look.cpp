#include "formats/look.h"

#include <nlohmann/json.hpp>

namespace ahead::formats {
namespace {

using nlohmann::json;

constexpr std::array colour_names{"cue",  "red",  "yellow", "green", "brown",
                                  "blue", "pink", "black",  "solid", "stripe"};

Theme theme_of(const json& theme) {
  return {.paper = theme.at("paper"),
          .card = theme.at("card"),
          .ink = theme.at("ink"),
          .soft = theme.at("soft"),
          .rule = theme.at("rule"),
          .bed = theme.at("bed"),
          .mark = theme.at("mark"),
          .accent = theme.at("accent")};
}

Pattern pattern_of(const std::string& name) {
  if (name == "ring") return Pattern::ring;
  if (name == "dots") return Pattern::dots;
  if (name == "band") return Pattern::band;
  return Pattern::plain;
}

BallLook ball_of(const json& ball) {
  return {.letter = ball.at("letter"),
          .pattern = pattern_of(ball.at("pattern")),
          .fill = ball.at("fill"),
          .text = ball.at("text")};
}

Lines lines_of(const json& lines) {
  return {.nose_mm = lines.at("nose"),
          .rule_mm = lines.at("rule"),
          .pocket_mm = lines.at("pocket"),
          .ball_mm = lines.at("ball"),
          .cue_ball_mm = lines.at("cue_ball"),
          .hairline_mm = lines.at("hairline"),
          .contour_mm = lines.at("contour"),
          .tick_mm = lines.at("tick")};
}

RibbonLook ribbon_of(const json& ribbon) {
  return {.least_mm = ribbon.at("least_mm"),
          .per_mps_mm = ribbon.at("per_mps_mm"),
          .most_mm = ribbon.at("most_mm"),
          .tick_every_s = ribbon.at("tick_every_s")};
}

Look look_of(const json& file) {
  Look look{.light = theme_of(file.at("themes").at("light")),
            .dark = theme_of(file.at("themes").at("dark")),
            .body_font = file.at("fonts").at("body"),
            .heading_font = file.at("fonts").at("heading"),
            .lines = lines_of(file.at("lines_mm")),
            .ribbon = ribbon_of(file.at("ribbon"))};
  for (std::size_t i = 0; i < colour_names.size(); ++i) {
    look.balls[i] = ball_of(file.at("balls").at(colour_names[i]));
  }
  return look;
}

}  // namespace

std::optional<Look> read_look(std::string_view text) {
  try {
    return look_of(json::parse(text));
  } catch (const json::exception&) {
    return std::nullopt;
  }
}

}  // namespace ahead::formats
