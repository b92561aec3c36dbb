#include "lesson/words/pace.h"

#include <cmath>

#include <fmt/format.h>

namespace ahead::lesson {

std::size_t pace_of(double speed_mps) {
  std::size_t i = 0;
  while (i + 1 < pace_names.size() && speed_mps >= pace_limits_mps[i + 1]) ++i;
  return i;
}

std::string table_lengths(double distance_m, double table_length_m) {
  const double lengths = distance_m / table_length_m;
  if (distance_m < 0.015) return "next to nothing";
  if (lengths < 0.125) return fmt::format("about {:.0f} mm", std::round(100 * distance_m) * 10);
  const long quarters = std::lround(4 * lengths);
  const long whole = quarters / 4;
  constexpr std::array<std::string_view, 4> alone{"", "a quarter of a", "half a",
                                                  "three-quarters of a"};
  constexpr std::array<std::string_view, 4> after{"", " and a quarter", " and a half",
                                                  " and three-quarters"};
  constexpr std::array<std::string_view, 6> counts{"", "one", "two", "three", "four", "five"};
  const auto rest = static_cast<std::size_t>(quarters % 4);
  if (whole == 0) return fmt::format("about {} table length", alone[rest]);
  if (whole >= static_cast<long>(counts.size())) return "more than five table lengths";
  return fmt::format("about {}{} table length{}", counts[static_cast<std::size_t>(whole)],
                     after[rest], quarters == 4 ? "" : "s");
}

}  // namespace ahead::lesson
