#pragma once

#include <string>
#include <string_view>

#include "coach/layout.h"
#include "formats/look.h"
#include "lesson/figure/svg.h"

namespace ahead::lesson {

/// A ball at its true size: letter and pattern tell what it is, in grey as in colour, and the
/// number of its id which one. The cue ball is an open ring.
[[nodiscard]] std::string ball_mark(const coach::LayoutBall& ball, Point centre, double radius,
                                    const formats::Look& look);

/// Where a ball is at contact or comes to rest: a thin dashed ring.
[[nodiscard]] std::string ghost_mark(Point centre, double radius, std::string_view css_class);

/// An order-of-play number in a small disc.
[[nodiscard]] std::string order_mark(Point centre, int order);

/// Radius of an order mark, drawing units.
inline constexpr double order_radius = 20;

/// What the style calls a colour: "red".
[[nodiscard]] std::string_view colour_class(coach::Colour colour);

}  // namespace ahead::lesson
