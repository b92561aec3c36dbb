#pragma once

#include <cmath>

/// Finding an argument, for rows that ask "at which angle", "at which height".
namespace ahead::test {

/// Where `f` changes sign between `low` and `high`. Requires that it does.
template <class Function>
double zero_of(Function f, double low, double high) {
  const bool rises = f(low) < 0;
  for (int i = 0; i < 80; ++i) {
    const double middle = 0.5 * (low + high);
    ((f(middle) < 0) == rises ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

/// Where `f` is largest between `low` and `high`, if it rises and then falls: golden section.
template <class Function>
double maximum_of(Function f, double low, double high) {
  const double golden = (std::sqrt(5.0) - 1) / 2;
  for (int i = 0; i < 100; ++i) {
    const double a = high - golden * (high - low);
    const double b = low + golden * (high - low);
    (f(a) < f(b) ? low : high) = f(a) < f(b) ? a : b;
  }
  return 0.5 * (low + high);
}

}  // namespace ahead::test
