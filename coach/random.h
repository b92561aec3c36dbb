#pragma once

#include <cstdint>

/// Random numbers that are the same on every machine and for every number of threads.
///
/// One stream a trial: the stream is named by the seed and a counter, so trials can run in any
/// order. Normal variates are our own, since those of the standard library differ between
/// libraries.
///
/// Source: Steele, Lea and Flood (2014), SplitMix64; Box and Muller (1958).
namespace ahead::coach {

class Random {
 public:
  /// The stream `stream` of the family `seed`.
  Random(std::uint64_t seed, std::uint64_t stream);

  /// Even over [0, 1).
  [[nodiscard]] double uniform();
  /// Mean 0, standard deviation 1.
  [[nodiscard]] double normal();

 private:
  std::uint64_t state_;
};

}  // namespace ahead::coach
