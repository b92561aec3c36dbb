#pragma once

#include <span>

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

/// The mean of independent shares from 0 to 1. Its interval is that of so many successes and
/// failures that their share would scatter as much (effective sample size: Kish, Survey Sampling,
/// 1965; from memory). Requires a share.
[[nodiscard]] Chance chance_of(std::span<const double> shares);

}  // namespace ahead::coach
