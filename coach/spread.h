#pragma once

#include <array>
#include <cstdint>

/// Numbers spread evenly, in place of random ones: means over them come far nearer to the truth
/// than means over as many random numbers (quasi-Monte Carlo).
///
/// For means over the index only. Each point by itself is as good as random, but two of them are
/// anything but independent: a chain of shots has to draw from random.h.
///
/// Source: Halton (1960), Numer. Math. 2, 84; turned by the seed: Cranley and Patterson (1976),
/// SIAM J. Numer. Anal. 13, 904.
namespace ahead::coach {

using Normals = std::array<double, 5>;

/// Point `index` of the family `seed`: mean 0, standard deviation 1. Any run of indices is spread
/// evenly, the first number the most, the last the least.
[[nodiscard]] Normals spread_normals(std::uint64_t seed, std::uint64_t index);

/// The digits of `number` mirrored at the point: van der Corput's sequence (1935), in [0, 1).
[[nodiscard]] double mirrored(std::uint64_t number, std::uint64_t base);

/// The value below which the share of normal variates lies; requires 0 < share < 1.
[[nodiscard]] double normal_quantile(double share);

}  // namespace ahead::coach
