#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "coach/spread.h"

/// The space of a player's errors: five of them, independent and normal (player/scatter.h), counted
/// in sigmas about the bias.
namespace ahead::coach {

/// Direction, pace, height and side of the tip, elevation.
using Errors = Normals;
inline constexpr std::size_t height_error = 2;
inline constexpr std::size_t side_error = 3;

[[nodiscard]] double dot(const Errors& a, const Errors& b);
[[nodiscard]] Errors plus(Errors a, double times, const Errors& b);

/// A line through it: `base` and so many sigmas along a unit.
struct ErrorLine {
  Errors base{};
  Errors along{};

  [[nodiscard]] Errors at(double sigmas) const { return plus(base, sigmas, along); }
};

/// The share of normal errors below `z`.
[[nodiscard]] double normal_below(double z);

/// Four errors, normal and spread evenly: what is left of the space across a line.
using Across = std::array<double, 4>;

/// Hammersley's points (1960), turned by the inverse of the normal distribution; each of the four
/// then with mean 0 and variance 1 exactly. Requires two or more.
[[nodiscard]] std::vector<Across> spread_across(std::size_t count);

}  // namespace ahead::coach
