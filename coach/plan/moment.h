#pragma once

#include <optional>
#include <vector>

/// What a shot means for the whole clearance: the moments at which a coach stops and says why now.
/// Balls are those of the layout before the shot.
namespace ahead::coach {

/// From less than this share of the cue ball's places a ball goes from few: a problem; from so many
/// it goes from most (common practice, no source).
inline constexpr double few_places = 0.25;
inline constexpr double most_places = 0.60;

struct Moment {
  bool key_ball = false;     ///< the last one before the black
  double goes_from = 1;      ///< share of the cue ball's places from which the ball goes as it lies
  std::optional<int> cover;  ///< for a ball that goes from few places: one that stays as insurance
  std::vector<int> frees;    ///< own balls that went from nowhere and, after the shot as meant, go

  friend bool operator==(const Moment&, const Moment&) = default;
};

[[nodiscard]] inline bool takes_problem(const Moment& moment) {
  return moment.goes_from < few_places;
}

}  // namespace ahead::coach
