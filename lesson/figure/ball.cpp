#include "lesson/figure/ball.h"

#include <array>
#include <numbers>

#include <fmt/format.h>

namespace ahead::lesson {
namespace {

using formats::Pattern;

std::string dots(Point centre, double radius) {
  constexpr int count = 10;
  std::string marks;
  for (int i = 0; i < count; ++i) {
    const double at_rad = (i + 0.5) * 2 * std::numbers::pi / count;
    marks += circle(centre + 0.8 * radius * engine::direction(at_rad), 0.08 * radius, "dot");
  }
  return marks;
}

std::string band(Point centre, double radius) {
  std::string marks;
  for (const double side : {-1.0, 1.0}) {
    const double y = side * 0.66 * radius;
    const double half = 0.75 * radius;  // chord of the circle at that height
    marks += line(centre + Point{-half, y}, centre + Point{half, y}, "band");
  }
  return marks;
}

/// With the number of its id, by which the words call it.
std::string letters(const coach::LayoutBall& ball, const formats::BallLook& look) {
  const auto dash = ball.id.find('-');
  return dash == std::string::npos ? look.letter : look.letter + ball.id.substr(dash + 1);
}

}  // namespace

std::string ball_mark(const coach::LayoutBall& ball, Point centre, double radius,
                      const formats::Look& look) {
  const formats::BallLook& ball_look = look.ball(ball.colour);
  std::string marks = circle(centre, radius, "face");
  if (ball_look.pattern == Pattern::dots) marks += dots(centre, radius);
  if (ball_look.pattern == Pattern::band) marks += band(centre, radius);
  const std::string letter = letters(ball, ball_look);
  if (!letter.empty()) {
    const bool dotted = ball_look.pattern == Pattern::dots;
    const double below = dotted ? 0.28 : letter.size() > 1 ? 0.34 : 0.43;
    marks += text(centre + Point{0, below * radius}, letter,
                  dotted              ? "letter dotted"
                  : letter.size() > 1 ? "letter small"
                                      : "letter");
  }
  return group(fmt::format("ball {}", colour_class(ball.colour)), marks);
}

std::string ghost_mark(Point centre, double radius, std::string_view css_class) {
  return circle(centre, radius, fmt::format("ghost {}", css_class));
}

std::string order_mark(Point centre, int order) {
  return group("order", circle(centre, order_radius, "disc") +
                            text(centre + Point{0, 10}, fmt::format("{}", order), "figure"));
}

std::string_view colour_class(coach::Colour colour) {
  constexpr std::array<std::string_view, 10> names{"cue",  "red",  "yellow", "green", "brown",
                                                   "blue", "pink", "black",  "solid", "stripe"};
  return names[static_cast<std::size_t>(colour)];
}

}  // namespace ahead::lesson
