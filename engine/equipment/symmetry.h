#pragma once

#include "engine/equipment/table.h"

/// Whether a table is its own mirror image: what has been found out about one half then holds for
/// the other. A table of a file need not be.
namespace ahead::engine {

struct Symmetry {
  bool across = false;  ///< left to right
  bool along = false;   ///< end to end; never on a cloth with nap
};

/// Noses and pockets may be 1 nm off.
[[nodiscard]] Symmetry symmetry_of(const Table& table);

}  // namespace ahead::engine
