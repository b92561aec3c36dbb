#include "lesson/figure/density.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ahead::lesson {
namespace {

using engine::Vec2;

/// Least width of the kernel, m. Landings on one spot would otherwise fall between the nodes.
constexpr double least_width_m = 0.008;
/// Beyond this many widths a normal kernel adds less than a ten-thousandth of its peak.
constexpr double reach = 4.3;

/// A symmetric 2 x 2 matrix.
struct Covariance {
  double xx = 0;
  double xy = 0;
  double yy = 0;
};

Covariance covariance_of(std::span<const Vec2> places) {
  const auto n = static_cast<double>(places.size());
  Vec2 mean;
  for (const Vec2 p : places) mean = mean + p / n;
  Covariance sum;
  for (const Vec2 p : places) {
    const Vec2 d = p - mean;
    sum.xx += d.x * d.x / n;
    sum.xy += d.x * d.y / n;
    sum.yy += d.y * d.y / n;
  }
  return sum;
}

Covariance kernel_of(std::span<const Vec2> places) {
  const double shrink = 0.6 * std::pow(static_cast<double>(places.size()), -1.0 / 6);
  const Covariance all = covariance_of(places);
  const double least = least_width_m * least_width_m;
  return {.xx = shrink * shrink * all.xx + least,
          .xy = shrink * shrink * all.xy,
          .yy = shrink * shrink * all.yy + least};
}

/// What one of the places adds to the density at its own place.
double own_share(std::span<const Vec2> places) {
  const Covariance k = kernel_of(places);
  return 1 / (2 * std::numbers::pi * std::sqrt(k.xx * k.yy - k.xy * k.xy) *
              static_cast<double>(places.size()));
}

}  // namespace

Lattice density_of(std::span<const Vec2> places, const Extent& extent, double spacing_m) {
  Lattice lattice{.origin_m = extent.from, .spacing_m = spacing_m};
  lattice.columns = static_cast<int>(std::ceil((extent.to.x - extent.from.x) / spacing_m)) + 1;
  lattice.rows = static_cast<int>(std::ceil((extent.to.y - extent.from.y) / spacing_m)) + 1;
  lattice.values.assign(
      static_cast<std::size_t>(lattice.columns) * static_cast<std::size_t>(lattice.rows), 0.0);

  const Covariance k = kernel_of(places);
  const double determinant = k.xx * k.yy - k.xy * k.xy;
  const double peak = own_share(places);
  const auto node = [spacing_m](double from, double at, double limit) {
    return std::clamp((at - from) / spacing_m, 1.0, limit);
  };
  const double last_column = lattice.columns - 2;
  const double last_row = lattice.rows - 2;
  const double half_rows = reach * std::sqrt(k.yy);
  // Along a row the exponent is a parabola in the column: from node to node the value grows by a
  // factor that itself falls by this one, so a row costs two exponentials.
  const double falls = std::exp(-spacing_m * spacing_m * k.yy / determinant);
  for (const Vec2 p : places) {
    const int r0 = static_cast<int>(std::ceil(node(extent.from.y, p.y - half_rows, last_row)));
    const int r1 = static_cast<int>(std::floor(node(extent.from.y, p.y + half_rows, last_row)));
    for (int r = r0; r <= r1; ++r) {
      const double dy = extent.from.y + r * spacing_m - p.y;
      // The row's part of the ellipse beyond which the kernel is left out.
      const double middle = p.x + k.xy * dy / k.yy;
      const double left_m2 = (reach * reach - dy * dy / k.yy) * determinant / k.yy;
      const double half = std::sqrt(std::max(0.0, left_m2));
      const int c0 = static_cast<int>(std::ceil(node(extent.from.x, middle - half, last_column)));
      const int c1 = static_cast<int>(std::floor(node(extent.from.x, middle + half, last_column)));
      const double dx = extent.from.x + c0 * spacing_m - p.x;
      const double distance2 = (k.yy * dx * dx - 2 * k.xy * dx * dy + k.xx * dy * dy) / determinant;
      const double slope =
          (2 * k.yy * dx - 2 * k.xy * dy + k.yy * spacing_m) * spacing_m / determinant;
      double value = peak * std::exp(-distance2 / 2);
      double grows = std::exp(-slope / 2);
      for (int c = c0; c <= c1; ++c) {
        lattice.values[static_cast<std::size_t>(r) * static_cast<std::size_t>(lattice.columns) +
                       static_cast<std::size_t>(c)] += value;
        value *= grows;
        grows *= falls;
      }
    }
  }
  return lattice;
}

double value_at(const Lattice& lattice, Vec2 place) {
  const Vec2 f = (place - lattice.origin_m) / lattice.spacing_m;
  const int c = static_cast<int>(std::floor(f.x));
  const int r = static_cast<int>(std::floor(f.y));
  if (c < 0 || r < 0 || c + 1 >= lattice.columns || r + 1 >= lattice.rows) return 0;
  const double u = f.x - c;
  const double v = f.y - r;
  return (1 - v) * ((1 - u) * lattice.at(c, r) + u * lattice.at(c + 1, r)) +
         v * ((1 - u) * lattice.at(c, r + 1) + u * lattice.at(c + 1, r + 1));
}

double level_holding(const Lattice& density, std::span<const Vec2> places, double fraction) {
  const auto n = static_cast<double>(places.size());
  const double own = own_share(places);
  std::vector<double> values;
  for (const Vec2 p : places) values.push_back((value_at(density, p) - own) * n / (n - 1));
  std::ranges::sort(values);
  const double below = (1 - fraction) * n;
  const double level = values[std::min(values.size() - 1, static_cast<std::size_t>(below))];
  // A place that stands alone has next to nothing about it; a contour needs a level above zero.
  return std::max(level, 0.02 * own);
}

}  // namespace ahead::lesson
