#include "coach/spread.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

#include <boost/math/special_functions/erf.hpp>

#include "coach/random.h"

namespace ahead::coach {
namespace {

/// Streams of single tries count from 0.
constexpr std::uint64_t turning_stream = 0x7u << 29U;

}  // namespace

double mirrored(std::uint64_t number, std::uint64_t base) {
  double digit = 1;
  double sum = 0;
  for (; number > 0; number /= base) {
    digit /= static_cast<double>(base);
    sum += digit * static_cast<double>(number % base);
  }
  return sum;
}

double normal_quantile(double share) {
  using boost::math::policies::policy;
  using boost::math::policies::promote_double;
  return -std::numbers::sqrt2 * boost::math::erfc_inv(2 * share, policy<promote_double<false>>());
}

Normals spread_normals(std::uint64_t seed, std::uint64_t index) {
  constexpr std::array<std::uint64_t, std::tuple_size_v<Normals>> primes{2, 3, 5, 7, 11};
  constexpr double least = 0x1p-54;
  Random turn(seed, turning_stream);
  Normals point{};
  for (std::size_t k = 0; k < point.size(); ++k) {
    const double share = mirrored(index + 1, primes[k]) + turn.uniform();
    point[k] = normal_quantile(std::max(share - std::floor(share), least));
  }
  return point;
}

}  // namespace ahead::coach
