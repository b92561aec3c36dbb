#pragma once

#include <cstdint>
#include <random>

/// A seeded source of numbers for the tests that play thousands of shots.
///
/// The generator is named and the interval is made by hand, because the standard distributions give
/// other numbers in other libraries: a shot that fails must be the same shot everywhere.
namespace ahead::test {

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : generator_(seed) {}

  /// Evenly from [low, high).
  double between(double low, double high) {
    const double share = static_cast<double>(generator_() >> 11U) * 0x1p-53;
    return low + (high - low) * share;
  }

  /// One of low, low + 1, ..., high.
  int whole(int low, int high) {
    const auto count = static_cast<std::uint64_t>(high) - static_cast<std::uint64_t>(low) + 1;
    return low + static_cast<int>(generator_() % count);
  }

 private:
  std::mt19937_64 generator_;
};

}  // namespace ahead::test
