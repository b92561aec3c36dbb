#pragma once

#include <array>
#include <optional>

/// When does a distance first close? Earliest roots of polynomials of degree four or less.
///
/// A contact is the first moment at which a gap falls through zero. The real roots of the
/// derivative split the time into stretches in which the gap only rises or only falls, so each
/// root is bracketed before it is refined: nothing is lost at grazing contacts or double roots.
///
/// Sources: bracketing by the derivative's roots is Rolle's theorem; safeguarded Newton after
/// Press et al., Numerical Recipes, section 9.4.
namespace ahead::engine {

/// c[0] + c[1] t + ... + c[4] t^4.
using Polynomial = std::array<double, 5>;

[[nodiscard]] double value_at(const Polynomial& p, double t);

/// First t in [0, t_max] at which `gap` falls from above zero to zero.
///
/// Also 0 when the gap is already closed (gap(0) <= 0) and still closing (gap'(0) < 0). A gap that
/// is closed but opening counts again only after it has been open.
[[nodiscard]] std::optional<double> first_closing(const Polynomial& gap, double t_max);

}  // namespace ahead::engine
