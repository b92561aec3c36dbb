#include "coach/risk/chance.h"

#include <algorithm>
#include <cmath>

namespace ahead::coach {

Chance chance_of(int successes, int trials) {
  constexpr double z = 1.959964;  // two-sided 95%
  const double n = trials;
  const double p = successes / n;
  const double centre = (p + z * z / (2 * n)) / (1 + z * z / n);
  const double half = z / (1 + z * z / n) * std::sqrt(p * (1 - p) / n + z * z / (4 * n * n));
  return {.value = p,
          .low = successes == 0 ? 0.0 : std::max(0.0, centre - half),
          .high = successes == trials ? 1.0 : std::min(1.0, centre + half),
          .trials = trials};
}

}  // namespace ahead::coach
