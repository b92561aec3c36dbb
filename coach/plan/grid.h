#pragma once

/// Places of the cue ball that a value field is worked out for.
namespace ahead::coach {

struct Grid {
  int columns = 0;  ///< across the table; two or more
  int rows = 0;     ///< along it; two or more

  friend bool operator==(const Grid&, const Grid&) = default;
};

/// On a 7 ft table a place every 0.1 m; and every 0.17 m, which takes less than half the work: over
/// the trial set its first choices cleared as often.
inline constexpr Grid fine_grid{.columns = 9, .rows = 17};
inline constexpr Grid coarse_grid{.columns = 6, .rows = 11};

}  // namespace ahead::coach
