#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coach/after/played.h"
#include "lesson/figure/free_place.h"
#include "lesson/figure/labels.h"
#include "lesson/figure/landing.h"
#include "lesson/figure/ribbon.h"
#include "lesson/figure/view.h"

/// The marks of one planned shot, each by itself: drawings, films and pages take those they need.
namespace ahead::lesson {

/// What the marks share. It refers to the shot, which must outlive it.
struct ShotScene {
  const coach::PlannedShot& shot;
  View view;
  std::vector<std::vector<DrawnStretch>> paths;  ///< one a ball, empty for one that stays
  LandingContours landings;
  std::optional<Point> contact;  ///< the cue ball's centre when it meets a ball

  [[nodiscard]] const engine::Table& table() const { return shot.before.table; }
  [[nodiscard]] Point centre(std::size_t ball) const { return view.at(shot.before.balls[ball].at); }
  [[nodiscard]] double radius(std::size_t ball) const {
    return 1000 * engine::ball_of(table(), static_cast<int>(ball)).radius_m;
  }
};

[[nodiscard]] ShotScene scene_of(const coach::PlannedShot& shot);

/// Nothing named yet; the balls' places are taken.
[[nodiscard]] Labels labels_of(const ShotScene& scene);

/// The paths of all balls, the cue ball's above the others.
[[nodiscard]] std::string ribbons(const ShotScene& scene, const formats::Look& look);

/// Those of the runner-up: thin lines, named by ball and pocket.
[[nodiscard]] std::string rival_paths(const ShotScene& scene, Labels& labels);

[[nodiscard]] std::string balls(const ShotScene& scene, const formats::Look& look);

/// A ring where the cue ball meets the object ball.
[[nodiscard]] std::string contact_ring(const ShotScene& scene);

/// Rings where moved balls that stay up come to rest.
[[nodiscard]] std::string rest_rings(const ShotScene& scene);

/// A cross where the cue ball was found after the shot, named. Empty when it was not.
[[nodiscard]] std::string found_mark(const ShotScene& scene,
                                     const std::optional<coach::ShotResult>& came, Labels& labels);

/// From the place of contact onwards: where the player looks. Long enough for its name to stand
/// free. Empty when the cue ball meets nothing, like the two below.
[[nodiscard]] std::string aim_line(const ShotScene& scene, Labels& labels);

/// Square to the line of centres: the way of a stunned ball.
[[nodiscard]] std::string tangent_line(const ShotScene& scene, Labels& labels);

/// Through both balls at contact, to the pocket.
[[nodiscard]] std::string line_of_centres(const ShotScene& scene, Labels& labels);

/// The number of this shot on its ball, and of the next shot on its own.
[[nodiscard]] std::string order_numbers(const coach::Plan& plan, std::size_t shot,
                                        const ShotScene& scene, const Drawing& drawing,
                                        Labels& labels);

}  // namespace ahead::lesson
