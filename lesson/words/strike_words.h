#pragma once

#include <string>
#include <string_view>

/// Where to strike and how thick to hit, in the words of a coach. Each word stands for a range of
/// numbers, given where the words are chosen; ranges are common practice.
namespace ahead::lesson {

/// A strike in what the pupil copies: fractions of the radius at the touch, tip's widths at the
/// cue.
struct StrikeFacts {
  double height = 0;              ///< where the tip touches, of the radius, up positive
  double side = 0;                ///< ... right positive
  double cue_tips_up = 0;         ///< where the cue points, in widths of the tip, up positive
  double cue_tips_right = 0;      ///< ... right positive
  double cue_ball_speed_mps = 0;  ///< as it leaves the tip
  double elevation_deg = 0;
};

/// "low", "just below centre", ...
[[nodiscard]] std::string_view height_word(double height);

/// "a touch of side on the left"; empty for a trace of side, which counts as none.
[[nodiscard]] std::string side_words(double side);

/// "half a tip", "one and a quarter tips", to the nearest quarter; empty for less than an eighth.
[[nodiscard]] std::string tips_words(double tips);

/// "low, with a touch of side on the left; the cue points one tip below centre ..."
[[nodiscard]] std::string where_to_strike(const StrikeFacts& strike);

/// "straight", "three-quarter ball", "a little thinner than half ball", ...
[[nodiscard]] std::string thickness_words(double thickness, double cut_rad);

}  // namespace ahead::lesson
