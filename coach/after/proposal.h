#pragma once

#include <array>
#include <span>
#include <vector>

#include "coach/random.h"

/// Where the next round of an adaptive importance sampler is drawn: a density to draw from and to
/// evaluate, made of a standard normal and of lumps.
///
/// Lumps follow the weighted points of the rounds before. They are Student's t, whose long tails
/// keep the weights of points between lumps in bounds; the standard normal (the prior, in its own
/// units) stays in as a guard.
///
/// Source: Cappe, Douc, Guillin, Marin and Robert (2008), Stat. Comput. 18, 447 (mixtures of t);
/// Hesterberg (1995), Technometrics 37, 185 (the guard).
namespace ahead::coach {

/// Coordinates of a point; those beyond the dimension in use are 0.
inline constexpr std::size_t most_dimensions = 9;
using Point = std::array<double, most_dimensions>;

class Proposal {
 public:
  /// The standard normal alone.
  explicit Proposal(std::size_t dimensions) : dimensions_(dimensions) {}

  /// Lumps laid over weighted points: centres drawn among them, each with the spread of the points
  /// about it. `weights` sum to 1.
  Proposal(std::size_t dimensions, std::span<const Point> points, std::span<const double> weights,
           Random& random);

  [[nodiscard]] Point drawn(Random& random) const;
  [[nodiscard]] double density(const Point& point) const;

 private:
  using Matrix = std::array<Point, most_dimensions>;
  struct Lump {
    Point mean{};
    Matrix root{};     ///< lower triangle L with L L' the covariance
    double scale = 0;  ///< density at the mean
  };
  [[nodiscard]] Lump lump(const Point& mean, const Matrix& covariance) const;
  /// Squared distance from the lump's mean, in its own spread.
  [[nodiscard]] double distance2(const Lump& lump, const Point& point) const;
  [[nodiscard]] Lump local(const Lump& whole, const Point& centre, std::span<const Point> points,
                           std::span<const double> weights) const;

  std::size_t dimensions_;
  std::vector<Lump> lumps_;
};

[[nodiscard]] double standard_normal(const Point& point, std::size_t dimensions);

}  // namespace ahead::coach
