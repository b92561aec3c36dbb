#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "engine/simulate/stretch.h"
#include "formats/look.h"
#include "lesson/figure/view.h"

/// The path of one ball: its width tells speed, ticks across it tell time, its texture tells
/// whether the ball slides (hollow), rolls (filled) or flies (dotted).
namespace ahead::lesson {

/// One moment of a path.
struct PathPoint {
  double t_s = 0;
  Point at;     ///< drawing units
  Point along;  ///< unit vector of travel, drawing units
  double speed_mps = 0;
};

/// A stretch as it is drawn.
struct DrawnStretch {
  engine::Phase phase{};
  std::vector<PathPoint> points;
};

/// The moving stretches among `path`, sampled closely enough for curves to look round.
[[nodiscard]] std::vector<DrawnStretch> drawn_stretches(std::span<const engine::Stretch> path,
                                                        const engine::Table& table,
                                                        const View& view);

/// Width of a ribbon at a speed, drawing units.
[[nodiscard]] double ribbon_width(double speed_mps, const formats::RibbonLook& look);

[[nodiscard]] std::string ribbon_mark(std::span<const DrawnStretch> path,
                                      const formats::RibbonLook& look, std::string_view css_class);

}  // namespace ahead::lesson
