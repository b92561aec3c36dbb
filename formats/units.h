#pragma once

#include <numbers>

/// Between the units of the files (mm, g, degrees) and those of the code (SI). The only place.
namespace ahead::formats {

inline constexpr double m_of_mm = 1e-3;
inline constexpr double kg_of_g = 1e-3;
inline constexpr double rad_of_deg = std::numbers::pi / 180;

constexpr double mm(double m) { return m * 1e3; }
constexpr double grams(double kg) { return kg * 1e3; }
constexpr double degrees(double rad) { return rad * 180 / std::numbers::pi; }

}  // namespace ahead::formats
