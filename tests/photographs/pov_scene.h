#pragma once

#include <string>

#include "tests/photographs/scene.h"

/// A scene as text for POV-Ray (Debian's povray 3.7), whose camera is an ideal pinhole: the picture
/// is rendered `margin` times as wide and high, and bent afterwards.
namespace ahead::photographs {

/// The scene as it looks.
[[nodiscard]] std::string pov_scene(const Scene& scene, double margin);
/// The same with every ball in a flat colour of its own, (n + 1) * 8 of red for the n-th, and all
/// else black: what can be seen of each ball.
[[nodiscard]] std::string pov_numbers(const Scene& scene, double margin);

}  // namespace ahead::photographs
