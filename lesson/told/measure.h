#pragma once

#include <string>

#include "lesson/told/voice.h"

/// Lengths and speeds as a person says them.
namespace ahead::lesson {

/// Under a metre to 10 mm ("280 mm") or to the inch ("11 in"), else to a tenth of a metre or foot.
[[nodiscard]] std::string length_words(double length_m, Units units);

/// "1.2 m/s"; "2.7 mph".
[[nodiscard]] std::string speed_words(double speed_mps, Units units);

}  // namespace ahead::lesson
