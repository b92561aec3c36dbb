#pragma once

#include <array>
#include <span>

#include "coach/risk/chance.h"

/// Do things that were held for 70% happen 7 times in 10?
namespace ahead::coach {

/// A chance that was stated, and what came of it.
struct Foretold {
  double chance = 0;
  bool happened = false;

  friend bool operator==(const Foretold&, const Foretold&) = default;
};

/// One tenth of the stated chances.
struct Tenth {
  int cases = 0;
  double stated = 0;  ///< mean over the cases
  Chance actual;      ///< share of the cases that happened; 0 to 1 wide when there are none
};

/// Tenth i holds the chances from i/10 up to (i + 1)/10; the last one holds 1 as well.
/// Requires chances from 0 to 1.
[[nodiscard]] std::array<Tenth, 10> calibration(std::span<const Foretold> foretold);

}  // namespace ahead::coach
