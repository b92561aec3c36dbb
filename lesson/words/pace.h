#pragma once

#include <array>
#include <string>
#include <string_view>

/// How hard, in words.
namespace ahead::lesson {

/// The pace words and where each begins and the last ends, in m/s of the cue ball off the tip.
///
/// Typical speeds as published by D. Alciatore (billiards.colostate.edu) for a larger table: the
/// words are for talking, the figure beside them counts.
inline constexpr std::array<std::string_view, 5> pace_names{"touch", "slow", "medium", "fast",
                                                            "power"};
inline constexpr std::array pace_limits_mps{0.0, 0.45, 0.9, 1.9, 3.2, 4.5};

/// Index into pace_names.
[[nodiscard]] std::size_t pace_of(double speed_mps);

/// A distance as a part of the table: "about three-quarters of a table length".
[[nodiscard]] std::string table_lengths(double distance_m, double table_length_m);

}  // namespace ahead::lesson
