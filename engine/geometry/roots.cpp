#include "engine/geometry/roots.h"

#include <algorithm>
#include <cmath>

namespace ahead::engine {
namespace {

/// Roots inside an open interval, in rising order.
struct Roots {
  std::array<double, 4> at{};
  int count = 0;

  void add(double t) { at[static_cast<std::size_t>(count++)] = t; }
};

Polynomial derivative(const Polynomial& p) { return {p[1], 2 * p[2], 3 * p[3], 4 * p[4], 0}; }

int degree(const Polynomial& p) {
  int d = 4;
  while (d > 0 && p[static_cast<std::size_t>(d)] == 0) --d;
  return d;
}

/// The root between a and b, where p changes sign and is monotone: Newton kept inside the bracket.
double refine(const Polynomial& p, double a, double b) {
  const Polynomial dp = derivative(p);
  const bool falls = value_at(p, a) > value_at(p, b);
  double t = 0.5 * (a + b);
  for (int i = 0; i < 100; ++i) {
    const double f = value_at(p, t);
    if (f == 0) return t;
    ((f > 0) == falls ? a : b) = t;
    const double slope = value_at(dp, t);
    double next = t - f / slope;
    if (next <= a || next >= b || std::isnan(next)) next = 0.5 * (a + b);
    if (std::abs(next - t) <= 1e-16 * std::abs(t) || next == t) return next;
    t = next;
  }
  return t;
}

/// Roots of a quadratic in (0, t_max), without cancellation.
Roots quadratic_roots(const Polynomial& p, double t_max) {
  Roots roots;
  const double half_b = 0.5 * p[1];
  const double discriminant = half_b * half_b - p[2] * p[0];
  if (discriminant < 0) return roots;
  const double q = -(half_b + std::copysign(std::sqrt(discriminant), half_b));
  double first = q / p[2];
  double second = q != 0 ? p[0] / q : first;
  if (second < first) std::swap(first, second);
  if (first > 0 && first < t_max) roots.add(first);
  if (second > 0 && second < t_max && second != first) roots.add(second);
  return roots;
}

Roots roots_within(const Polynomial& p, double t_max) {
  const int d = degree(p);
  Roots roots;
  if (d == 0) return roots;
  if (d == 1) {
    const double t = -p[0] / p[1];
    if (t > 0 && t < t_max) roots.add(t);
    return roots;
  }
  if (d == 2) return quadratic_roots(p, t_max);
  const Roots turns = roots_within(derivative(p), t_max);
  double a = 0;
  double at_a = value_at(p, a);
  for (int i = 0; i <= turns.count; ++i) {
    const double b = i < turns.count ? turns.at[static_cast<std::size_t>(i)] : t_max;
    const double at_b = value_at(p, b);
    if (at_a * at_b < 0) {
      roots.add(refine(p, a, b));
    } else if (at_b == 0 && i < turns.count && b > a) {
      roots.add(b);
    }
    a = b;
    at_a = at_b;
  }
  return roots;
}

}  // namespace

double value_at(const Polynomial& p, double t) {
  return p[0] + t * (p[1] + t * (p[2] + t * (p[3] + t * p[4])));
}

std::optional<double> first_closing(const Polynomial& gap, double t_max) {
  if (gap[0] <= 0 && gap[1] < 0) return 0.0;
  if (!(t_max > 0)) return std::nullopt;
  const Roots turns = roots_within(derivative(gap), t_max);
  double a = 0;
  double at_a = gap[0];
  for (int i = 0; i <= turns.count; ++i) {
    const double b = i < turns.count ? turns.at[static_cast<std::size_t>(i)] : t_max;
    const double at_b = value_at(gap, b);
    if (at_a > 0 && at_b <= 0) return refine(gap, a, b);
    a = b;
    at_a = at_b;
  }
  return std::nullopt;
}

}  // namespace ahead::engine
