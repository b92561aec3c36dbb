#include "coach/trial/ratio.h"

#include <cmath>

namespace ahead::coach {

Ratio ratio_of(const Count& one, const Count& other) {
  constexpr double z = 1.959964;  // two-sided 95%
  const bool none = one.successes == 0 || other.successes == 0;
  const double half = none ? 0.5 : 0.0;
  const double a = one.successes + half;
  const double m = one.trials + half;
  const double b = other.successes + half;
  const double n = other.trials + half;
  const double value = (a / m) / (b / n);
  const double error = std::sqrt(1 / a - 1 / m + 1 / b - 1 / n);
  return {.value = value, .low = value * std::exp(-z * error), .high = value * std::exp(z * error)};
}

}  // namespace ahead::coach
