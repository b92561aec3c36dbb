#pragma once

#include <cmath>

/// Vectors of two and three components.
///
/// Plain structs of doubles: in the hot loops they are several times faster than a general matrix
/// library, and the order of every operation is visible, which keeps results equal bit for bit.
/// Components carry the unit of the quantity that they describe (SI); z points up from the bed.
namespace ahead::engine {

struct Vec2 {
  double x = 0;
  double y = 0;

  friend bool operator==(const Vec2&, const Vec2&) = default;
};

constexpr Vec2 operator+(Vec2 a, Vec2 b) { return {a.x + b.x, a.y + b.y}; }
constexpr Vec2 operator-(Vec2 a, Vec2 b) { return {a.x - b.x, a.y - b.y}; }
constexpr Vec2 operator-(Vec2 a) { return {-a.x, -a.y}; }
constexpr Vec2 operator*(double s, Vec2 a) { return {s * a.x, s * a.y}; }
constexpr Vec2 operator/(Vec2 a, double s) { return {a.x / s, a.y / s}; }

constexpr double dot(Vec2 a, Vec2 b) { return a.x * b.x + a.y * b.y; }
/// z component of a x b: positive when b lies counter-clockwise of a.
constexpr double cross(Vec2 a, Vec2 b) { return a.x * b.y - a.y * b.x; }
inline double norm(Vec2 a) { return std::sqrt(dot(a, a)); }
/// a turned a quarter turn counter-clockwise.
constexpr Vec2 left_of(Vec2 a) { return {-a.y, a.x}; }
/// Unit vector at `angle_rad` counter-clockwise from +x.
inline Vec2 direction(double angle_rad) { return {std::cos(angle_rad), std::sin(angle_rad)}; }
/// Angle of `a` counter-clockwise from +x, in (-pi, pi].
inline double angle_rad(Vec2 a) { return std::atan2(a.y, a.x); }
/// Unit vector along `a`; zero for the zero vector.
inline Vec2 unit(Vec2 a) {
  const double length = norm(a);
  return length > 0 ? a / length : Vec2{};
}

struct Vec3 {
  double x = 0;
  double y = 0;
  double z = 0;

  friend bool operator==(const Vec3&, const Vec3&) = default;
};

constexpr Vec3 operator+(Vec3 a, Vec3 b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
constexpr Vec3 operator-(Vec3 a, Vec3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
constexpr Vec3 operator-(Vec3 a) { return {-a.x, -a.y, -a.z}; }
constexpr Vec3 operator*(double s, Vec3 a) { return {s * a.x, s * a.y, s * a.z}; }
constexpr Vec3 operator/(Vec3 a, double s) { return {a.x / s, a.y / s, a.z / s}; }
constexpr Vec3& operator+=(Vec3& a, Vec3 b) { return a = a + b; }
constexpr Vec3& operator-=(Vec3& a, Vec3 b) { return a = a - b; }

constexpr double dot(Vec3 a, Vec3 b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
constexpr Vec3 cross(Vec3 a, Vec3 b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline double norm(Vec3 a) { return std::sqrt(dot(a, a)); }
/// Unit vector along `a`; zero for the zero vector.
inline Vec3 unit(Vec3 a) {
  const double length = norm(a);
  return length > 0 ? a / length : Vec3{};
}
/// Part of `a` that is square to the unit vector `n`.
constexpr Vec3 tangential(Vec3 a, Vec3 n) { return a - dot(a, n) * n; }

/// The plan view of `a`.
constexpr Vec2 plan(Vec3 a) { return {a.x, a.y}; }
constexpr Vec3 lift(Vec2 a, double z = 0) { return {a.x, a.y, z}; }

}  // namespace ahead::engine
