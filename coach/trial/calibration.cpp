#include "coach/trial/calibration.h"

#include <algorithm>
#include <cstddef>

namespace ahead::coach {

std::array<Tenth, 10> calibration(std::span<const Foretold> foretold) {
  std::array<Tenth, 10> tenths;
  std::array<int, 10> happened{};
  for (const Foretold& one : foretold) {
    const std::size_t i = std::min<std::size_t>(static_cast<std::size_t>(one.chance * 10), 9);
    ++tenths[i].cases;
    tenths[i].stated += one.chance;
    happened[i] += one.happened ? 1 : 0;
  }
  for (std::size_t i = 0; i < tenths.size(); ++i) {
    if (tenths[i].cases == 0) continue;
    tenths[i].stated /= tenths[i].cases;
    tenths[i].actual = chance_of(happened[i], tenths[i].cases);
  }
  return tenths;
}

}  // namespace ahead::coach
