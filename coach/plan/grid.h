#pragma once

/// Places of the cue ball that a value field is worked out for.
namespace ahead::coach {

struct Grid {
  int columns = 0;  ///< across the table; two or more
  int rows = 0;     ///< along it; two or more

  friend bool operator==(const Grid&, const Grid&) = default;
};

/// On a 7 ft table a place every tenth of a metre; and every seventh, which takes half the work and
/// guides about as well.
inline constexpr Grid fine_grid{.columns = 9, .rows = 17};
inline constexpr Grid coarse_grid{.columns = 7, .rows = 13};

}  // namespace ahead::coach
