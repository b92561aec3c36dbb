#pragma once

#include <span>
#include <vector>

#include "engine/geometry/vec.h"

/// How densely a set of places lies over the bed.
namespace ahead::lesson {

/// Values on a square lattice over the bed; node (column, row) is at origin + spacing (column,
/// row).
struct Lattice {
  engine::Vec2 origin_m;
  double spacing_m = 0;
  int columns = 0;
  int rows = 0;
  std::vector<double> values;  ///< row by row

  [[nodiscard]] double at(int column, int row) const {
    return values[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
                  static_cast<std::size_t>(column)];
  }
};

/// A rectangle, SI.
struct Extent {
  engine::Vec2 from;
  engine::Vec2 to;
};

/// Kernel estimate of the density of `places` (1/m^2), zero along the edge of `extent`.
///
/// The kernel is normal with the places' own covariance, shrunk by 0.6 n^(-1/6): long thin clouds
/// stay thin. Source: Scott, Multivariate Density Estimation (1992), with his width reduced because
/// landings cluster along curves. Requires at least three places.
[[nodiscard]] Lattice density_of(std::span<const engine::Vec2> places, const Extent& extent,
                                 double spacing_m);

/// Linear between the nodes; zero outside.
[[nodiscard]] double value_at(const Lattice& lattice, engine::Vec2 place);

/// The density whose contour holds about `fraction` of other places of the same kind. Each place is
/// asked for the density of all the others: with its own part in it the contours would be drawn
/// too tight (tests/lesson/landing_test.cpp).
[[nodiscard]] double level_holding(const Lattice& density, std::span<const engine::Vec2> places,
                                   double fraction);

}  // namespace ahead::lesson
