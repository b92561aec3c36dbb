#pragma once

/// How many times as often one thing happens as another.
namespace ahead::coach {

/// With its 95% interval.
struct Ratio {
  double value = 0;
  double low = 0;
  double high = 0;
};

struct Count {
  int successes = 0;
  int trials = 0;
};

/// Of two independent shares, `one` over `other`, by the logarithm of their ratio. Half a success
/// and half a trial are added to both sides where one side has no success or no failure would leave
/// the interval without width or end.
/// Source: Katz, Baptista, Azen and Pike, Biometrics 34 (1978) 469; the halves, Walter,
/// Biometrika 62 (1975) 371 (from memory).
/// Requires 0 <= successes <= trials, trials > 0.
[[nodiscard]] Ratio ratio_of(const Count& one, const Count& other);

}  // namespace ahead::coach
