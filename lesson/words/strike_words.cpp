#include "lesson/words/strike_words.h"

#include <array>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace ahead::lesson {

std::string_view height_word(double height) {
  if (height > 0.35) return "well above centre";
  if (height > 0.05) return "above centre";
  if (height >= -0.05) return "at centre height";
  if (height >= -0.15) return "just below centre";
  if (height >= -0.30) return "low";
  if (height >= -0.45) return "deep";
  return "at the lower edge of what a tip holds";
}

std::string side_words(double side) {
  const double amount = std::abs(side);
  if (amount < 0.08) return {};
  const std::string_view how_much = amount <= 0.20   ? "a touch of side"
                                    : amount <= 0.35 ? "half side"
                                                     : "strong side";
  return fmt::format("{} on the {}", how_much, side > 0 ? "right" : "left");
}

std::string tips_words(double tips) {
  const long quarters = std::lround(4 * std::abs(tips));
  constexpr std::array<std::string_view, 4> part{"", "a quarter of a tip", "half a tip",
                                                 "three-quarters of a tip"};
  constexpr std::array<std::string_view, 4> more{"", " and a quarter", " and a half",
                                                 " and three-quarters"};
  constexpr std::array<std::string_view, 4> whole{"", "one", "two", "three"};
  if (quarters < 4) return std::string(part[static_cast<std::size_t>(quarters)]);
  const auto count = static_cast<std::size_t>(quarters / 4);
  if (count >= whole.size()) return "more than three tips";
  return fmt::format("{}{} tip{}", whole[count], more[static_cast<std::size_t>(quarters % 4)],
                     quarters == 4 ? "" : "s");
}

std::string where_to_strike(const StrikeFacts& strike) {
  const std::string side = side_words(strike.side);
  std::string words{height_word(strike.height)};
  if (!side.empty()) words += ", with " + side;

  const std::string up = tips_words(strike.cue_tips_up);
  const std::string across = tips_words(strike.cue_tips_right);
  std::string points;
  if (!up.empty()) points = up + (strike.cue_tips_up > 0 ? " above centre" : " below centre");
  if (!across.empty() && !side.empty()) {
    if (!points.empty()) points += " and ";
    points += across + (strike.cue_tips_right > 0 ? " to the right" : " to the left");
  }
  if (points.empty()) return words;
  return fmt::format("{}: the cue points {}", words, points);
}

std::string thickness_words(double thickness, double cut_rad) {
  constexpr double straight_rad = 2 * std::numbers::pi / 180;
  if (cut_rad < straight_rad) return "straight";
  if (thickness > 0.92) return "nearly full ball";
  if (thickness < 0.12) return "very fine";
  constexpr std::array<double, 3> marks{0.25, 0.5, 0.75};
  constexpr std::array<std::string_view, 3> names{"quarter ball", "half ball",
                                                  "three-quarter ball"};
  const std::size_t i = thickness < 0.375 ? 0 : thickness < 0.625 ? 1 : 2;
  const double more = thickness - marks[i];
  if (std::abs(more) <= 0.05) return std::string(names[i]);
  return fmt::format("a little {} than {}", more > 0 ? "thicker" : "thinner", names[i]);
}

}  // namespace ahead::lesson
