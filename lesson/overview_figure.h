#pragma once

#include <string>

#include "coach/plan/plan.h"
#include "lesson/figure/svg.h"
#include "lesson/house_look.h"

/// The whole clearance as one picture: the layout, the order of play, and each ball's pocket.
namespace ahead::lesson {

[[nodiscard]] Drawing overview_drawing(const coach::Plan& plan, const Look& look);

/// A file of its own.
[[nodiscard]] std::string overview_figure(const coach::Plan& plan, const Look& look);

}  // namespace ahead::lesson
