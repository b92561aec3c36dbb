#pragma once

/// The section of the rail and the height of the bed.
///
/// No standard gives them: common practice, no source. They hold for every table until a table file
/// says more.
namespace ahead::coach {

inline constexpr double rail_top_above_nose_m = 0.010;
/// The top's front edge, out from the nose.
inline constexpr double rail_top_behind_nose_m = 0.045;
/// The table's outer edge, out from the nose.
inline constexpr double rail_width_m = 0.130;
inline constexpr double bed_above_floor_m = 0.78;

}  // namespace ahead::coach
