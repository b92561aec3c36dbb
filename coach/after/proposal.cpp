#include "coach/after/proposal.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ahead::coach {
namespace {

constexpr double guard = 0.1;
constexpr std::size_t lump_count = 32;
/// Points count for a lump with a bell of this width, in the spread of the whole cloud.
constexpr double lump_reach = 1.2;
/// Lumps are a little wider than the points about them: too wide costs less than too narrow.
constexpr double widened2 = 1.2 * 1.2;
/// Degrees of freedom of a lump.
constexpr int freedom = 5;

}  // namespace

double standard_normal(const Point& point, std::size_t dimensions) {
  double sum = 0;
  for (std::size_t i = 0; i < dimensions; ++i) sum += point[i] * point[i];
  return std::exp(-0.5 * sum) /
         std::pow(2 * std::numbers::pi, 0.5 * static_cast<double>(dimensions));
}

Proposal::Proposal(std::size_t dimensions, std::span<const Point> points,
                   std::span<const double> weights, Random& random)
    : dimensions_(dimensions) {
  const Lump everywhere;  // of no use as a measure: local() then takes all points alike
  const Lump whole = local(everywhere, {}, points, weights);
  // Systematic resampling: centre k stands where the running weight passes (k + u) / count.
  const double u = random.uniform();
  double running = 0;
  std::size_t next = 0;
  for (std::size_t i = 0; i < points.size() && next < lump_count; ++i) {
    running += weights[i];
    bool taken = false;
    for (; next < lump_count && running * lump_count > static_cast<double>(next) + u; ++next) {
      if (taken) {
        lumps_.push_back(lumps_.back());
      } else {
        lumps_.push_back(local(whole, points[i], points, weights));
        taken = true;
      }
    }
  }
}

Proposal::Lump Proposal::local(const Lump& whole, const Point& centre,
                               std::span<const Point> points,
                               std::span<const double> weights) const {
  const bool all = whole.root[0][0] == 0;
  Lump about = whole;
  about.mean = centre;
  std::vector<double> shares(points.size());
  double sum = 0;
  Point mean{};
  for (std::size_t i = 0; i < points.size(); ++i) {
    const double near =
        all ? 1 : std::exp(-0.5 * distance2(about, points[i]) / (lump_reach * lump_reach));
    shares[i] = weights[i] * near;
    sum += shares[i];
    for (std::size_t d = 0; d < dimensions_; ++d) mean[d] += shares[i] * points[i][d];
  }
  for (double& coordinate : mean) coordinate /= sum;
  Matrix covariance{};
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (shares[i] < 1e-12 * sum) continue;
    for (std::size_t r = 0; r < dimensions_; ++r) {
      for (std::size_t c = 0; c <= r; ++c) {
        covariance[r][c] += shares[i] / sum * (points[i][r] - mean[r]) * (points[i][c] - mean[c]);
      }
    }
  }
  if (!all) {
    for (Point& row : covariance) {
      for (double& value : row) value *= widened2;
    }
  }
  return lump(mean, covariance);
}

// Cholesky's decomposition, with a least spread so that one point alone still makes a lump.
Proposal::Lump Proposal::lump(const Point& mean, const Matrix& covariance) const {
  constexpr double least_spread = 1e-4;
  const auto d = static_cast<double>(dimensions_);
  Lump lump{.mean = mean,
            .scale = std::tgamma(0.5 * (freedom + d)) / std::tgamma(0.5 * freedom) /
                     std::pow(freedom * std::numbers::pi, 0.5 * d)};
  for (std::size_t r = 0; r < dimensions_; ++r) {
    for (std::size_t c = 0; c <= r; ++c) {
      double rest = covariance[r][c];
      for (std::size_t k = 0; k < c; ++k) rest -= lump.root[r][k] * lump.root[c][k];
      lump.root[r][c] = r == c ? std::sqrt(std::max(rest, 0.0) + least_spread * least_spread)
                               : rest / lump.root[c][c];
    }
    lump.scale /= lump.root[r][r];
  }
  return lump;
}

double Proposal::distance2(const Lump& lump, const Point& point) const {
  Point solved{};
  double sum = 0;
  for (std::size_t r = 0; r < dimensions_; ++r) {
    double rest = point[r] - lump.mean[r];
    for (std::size_t k = 0; k < r; ++k) rest -= lump.root[r][k] * solved[k];
    solved[r] = rest / lump.root[r][r];
    sum += solved[r] * solved[r];
  }
  return sum;
}

Point Proposal::drawn(Random& random) const {
  Point normal{};
  const double which = random.uniform();
  for (std::size_t d = 0; d < dimensions_; ++d) normal[d] = random.normal();
  if (lumps_.empty() || which < guard) return normal;
  const auto count = static_cast<double>(lumps_.size());
  const auto index = static_cast<std::size_t>((which - guard) / (1 - guard) * count);
  const Lump& lump = lumps_[std::min(index, lumps_.size() - 1)];
  double chi2 = 0;
  for (int i = 0; i < freedom; ++i) {
    const double n = random.normal();
    chi2 += n * n;
  }
  const double stretch = std::sqrt(freedom / chi2);
  Point point = lump.mean;
  for (std::size_t r = 0; r < dimensions_; ++r) {
    for (std::size_t k = 0; k <= r; ++k) point[r] += stretch * lump.root[r][k] * normal[k];
  }
  return point;
}

double Proposal::density(const Point& point) const {
  const double prior = standard_normal(point, dimensions_);
  if (lumps_.empty()) return prior;
  const double power = -0.5 * (freedom + static_cast<double>(dimensions_));
  double sum = 0;
  for (const Lump& lump : lumps_) {
    sum += lump.scale * std::pow(1 + distance2(lump, point) / freedom, power);
  }
  return guard * prior + (1 - guard) / static_cast<double>(lumps_.size()) * sum;
}

}  // namespace ahead::coach
