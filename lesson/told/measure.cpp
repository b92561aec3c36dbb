#include "lesson/told/measure.h"

#include <cmath>

#include <fmt/format.h>

namespace ahead::lesson {
namespace {

constexpr double inch_m = 0.0254;
constexpr double foot_m = 0.3048;
constexpr double mph_mps = 0.44704;

}  // namespace

std::string length_words(double length_m, Units units) {
  if (units == Units::in) {
    const double inches = length_m / inch_m;
    return inches < 39.5 ? fmt::format("{:.0f} in", inches)
                         : fmt::format("{:.1f} ft", length_m / foot_m);
  }
  return length_m < 0.995 ? fmt::format("{:.0f} mm", std::round(100 * length_m) * 10)
                          : fmt::format("{:.1f} m", length_m);
}

std::string speed_words(double speed_mps, Units units) {
  return units == Units::in ? fmt::format("{:.1f} mph", speed_mps / mph_mps)
                            : fmt::format("{:.1f} m/s", speed_mps);
}

}  // namespace ahead::lesson
