#include "lesson/figure/pace_figure.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "lesson/words/pace.h"

namespace ahead::lesson {
namespace {

constexpr double section = 58;
constexpr double bar_width = section * pace_names.size();

/// Every word has the same room: the bar is linear only within a section.
double place_of(double speed_mps) {
  const std::size_t i = pace_of(speed_mps);
  const double within =
      (speed_mps - pace_limits_mps[i]) / (pace_limits_mps[i + 1] - pace_limits_mps[i]);
  return section * (static_cast<double>(i) + std::clamp(within, 0.0, 1.0));
}

std::string bar(double speed_mps, double sigma_fraction) {
  constexpr double height = 20;
  const double from = place_of(speed_mps * (1 - sigma_fraction));
  const double to = place_of(speed_mps * (1 + sigma_fraction));
  std::string marks = rectangle({from, 0}, to - from, height, "band-sigma");
  marks += rectangle({0, 0}, bar_width, height, "bar");
  for (std::size_t i = 0; i < pace_names.size(); ++i) {
    const double left = section * static_cast<double>(i);
    if (i > 0) {
      marks += line({left, 0}, {left, height}, "bar");
      marks +=
          text({left, height + 15}, fmt::format("{:g}", pace_limits_mps[i]), "small-words middle");
    }
    marks += text({left + section / 2, -7}, pace_names[i],
                  i == pace_of(speed_mps) ? "strong-words middle" : "small-words middle");
  }
  marks += text({bar_width, height + 15}, "m/s", "small-words end");
  const double at = place_of(speed_mps);
  return marks + line({at, -4}, {at, height + 4}, "bar-mark");
}

std::string raised_cue(double elevation_rad) {
  constexpr double bed_y = 112;
  constexpr double ball = 13;
  constexpr double ball_x = 150;
  // A steep cue is drawn shorter, clear of the bar above.
  const double length = std::min(118.0, 56 / std::max(0.01, std::sin(elevation_rad)));
  const Point along{-std::cos(elevation_rad), -std::sin(elevation_rad)};
  const Point centre{ball_x, bed_y - ball};
  return line({0, bed_y}, {bar_width, bed_y}, "bar") + circle(centre, ball, "disc-edge") +
         line(centre + (ball + 4) * along, centre + (ball + length) * along, "cue-line") +
         text({ball_x + 26, bed_y - 10},
              fmt::format("butt raised {:.0f}°", elevation_rad * 180 / std::numbers::pi),
              "strong-words");
}

}  // namespace

Drawing pace_figure(double speed_mps, double sigma_fraction, double elevation_rad) {
  return {.left = -10,
          .top = -24,
          .width = bar_width + 20,
          .height = 144,
          .body = group("pace", bar(speed_mps, sigma_fraction) + raised_cue(elevation_rad))};
}

}  // namespace ahead::lesson
