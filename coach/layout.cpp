#include "coach/layout.h"

#include <array>
#include <cmath>
#include <utility>

namespace ahead::coach {
namespace {

using Named = std::pair<std::string_view, Colour>;

constexpr std::array singles{Named{"cue", Colour::cue},     Named{"yellow", Colour::yellow},
                             Named{"green", Colour::green}, Named{"brown", Colour::brown},
                             Named{"blue", Colour::blue},   Named{"pink", Colour::pink},
                             Named{"black", Colour::black}};

constexpr std::array sets{Named{"red", Colour::red}, Named{"yellow", Colour::yellow},
                          Named{"solid", Colour::solid}, Named{"stripe", Colour::stripe}};

/// 1 to 15, written without leading zeros.
bool is_ball_number(std::string_view text) {
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  if (text.size() == 1) return is_digit(text[0]) && text[0] != '0';
  return text.size() == 2 && text[0] == '1' && text[1] >= '0' && text[1] <= '5';
}

}  // namespace

std::optional<Colour> colour_of_id(std::string_view id) {
  for (const auto& [name, colour] : singles) {
    if (id == name) return colour;
  }
  const std::size_t dash = id.find('-');
  if (dash == std::string_view::npos || !is_ball_number(id.substr(dash + 1))) return std::nullopt;
  for (const auto& [name, colour] : sets) {
    if (id.substr(0, dash) == name) return colour;
  }
  return std::nullopt;
}

double touching_distance_m(const Layout& layout, std::size_t first, std::size_t second) {
  const auto radius_m = [&](std::size_t index) {
    return layout.balls[index].colour == Colour::cue ? layout.table.cue_ball.radius_m
                                                     : layout.table.object_ball.radius_m;
  };
  // Both balls stand on the bed, so unequal ones touch on a tilted line of centres:
  // (R1 + R2)^2 - (R1 - R2)^2 = 4 R1 R2.
  return 2 * std::sqrt(radius_m(first) * radius_m(second));
}

}  // namespace ahead::coach
