#include "coach/pots/errors.h"

#include <cmath>
#include <numbers>

namespace ahead::coach {
namespace {

void standardise(std::vector<Across>& points, std::size_t k) {
  const auto count = static_cast<double>(points.size());
  double mean = 0;
  for (const Across& point : points) mean += point[k] / count;
  double square = 0;
  for (const Across& point : points) square += (point[k] - mean) * (point[k] - mean) / count;
  for (Across& point : points) point[k] = (point[k] - mean) / std::sqrt(square);
}

}  // namespace

double dot(const Errors& a, const Errors& b) {
  double sum = 0;
  for (std::size_t k = 0; k < a.size(); ++k) sum += a[k] * b[k];
  return sum;
}

Errors plus(Errors a, double times, const Errors& b) {
  for (std::size_t k = 0; k < a.size(); ++k) a[k] += times * b[k];
  return a;
}

double normal_below(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

std::vector<Across> spread_across(std::size_t count) {
  constexpr std::array<std::uint64_t, 3> primes{2, 3, 5};
  std::vector<Across> points(count);
  const double half = 0.5 / static_cast<double>(count);
  for (std::size_t i = 0; i < count; ++i) {
    points[i][0] = normal_quantile((static_cast<double>(i) + 0.5) / static_cast<double>(count));
    for (std::size_t k = 0; k < primes.size(); ++k) {
      const double share = mirrored(i + 1, primes[k]) + half;
      points[i][k + 1] = normal_quantile(share - std::floor(share));
    }
  }
  for (std::size_t k = 0; k < Across{}.size(); ++k) standardise(points, k);
  return points;
}

}  // namespace ahead::coach
