#pragma once

/// Chances that were estimated by playing out.
namespace ahead::coach {

/// A share of tries, with its 95% interval.
struct Chance {
  double value = 0;
  double low = 0;
  double high = 1;
  int trials = 0;
};

/// Source: Wilson, J. Am. Stat. Assoc. 22 (1927) 209. Requires 0 <= successes <= trials, trials >
/// 0.
[[nodiscard]] Chance chance_of(int successes, int trials);

}  // namespace ahead::coach
