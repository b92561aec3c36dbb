#include "cli/raised_cue.h"

#include <numbers>

#include <fmt/format.h>

namespace ahead::cli {

std::string raised_cue_caution(double elevation_rad) {
  constexpr double raised_deg = 15;
  constexpr double specialist_deg = 30;
  const double elevation_deg = elevation_rad * 180 / std::numbers::pi;
  if (elevation_deg < raised_deg - 1e-9) return "";
  return fmt::format(
      "Raised cue ({:.0f} degrees): a qualified coach and the room's rules come first{}.",
      elevation_deg,
      elevation_deg > specialist_deg + 1e-9 ? "; a stroke this steep puts the cloth at risk" : "");
}

}  // namespace ahead::cli
