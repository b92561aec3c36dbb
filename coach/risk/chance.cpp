#include "coach/risk/chance.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace ahead::coach {
namespace {

/// Of the share `p` of `n` trials.
Chance wilson(double p, double n) {
  constexpr double z = 1.959964;  // two-sided 95%
  const double centre = (p + z * z / (2 * n)) / (1 + z * z / n);
  const double half = z / (1 + z * z / n) * std::sqrt(p * (1 - p) / n + z * z / (4 * n * n));
  return {.value = p,
          .low = p == 0 ? 0.0 : std::max(0.0, centre - half),
          .high = p == 1 ? 1.0 : std::min(1.0, centre + half)};
}

}  // namespace

Chance chance_of(int successes, int trials) {
  Chance chance = wilson(static_cast<double>(successes) / trials, trials);
  chance.trials = trials;
  return chance;
}

Chance chance_of(std::span<const double> shares) {
  const auto count = static_cast<double>(shares.size());
  const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
  // Half a share of each kind more, so that a few that happen to agree do not pass for sure.
  const double middle = (sum + 0.5) / (count + 1);
  double scatter = 0.5 * (middle * middle + (1 - middle) * (1 - middle));
  for (const double share : shares) scatter += (share - middle) * (share - middle);
  const double all_or_nothing = middle * (1 - middle) * (count + 1);
  Chance chance = wilson(sum / count, count * all_or_nothing / scatter);
  chance.trials = static_cast<int>(shares.size());
  return chance;
}

}  // namespace ahead::coach
