#pragma once

#include <optional>
#include <vector>

#include "coach/access/access.h"

/// The cue ball's face as the player can reach it on one aim: access at every place of a grid
/// within the miscue limit.
namespace ahead::coach {

struct FacePlace {
  double side = 0;    ///< of the radius, right positive
  double height = 0;  ///< of the radius, up positive
  Access access;
};

struct Face {
  double spacing = 0;  ///< between places, of the radius
  std::vector<FacePlace> places;

  /// The nearest place, if one is near; nothing on an empty face.
  [[nodiscard]] const FacePlace* nearest(double side, double height) const;
};

/// A grid of 13 x 13 over the circle of the miscue limit; those outside are left out.
[[nodiscard]] Face face_of(const Scene& scene, const Position& position, double aim_rad);

/// What keeps most of the places that are not recommended() from being so.
struct FaceLoss {
  double share = 0;   ///< of the face
  double side = 0;    ///< mean place of what is lost
  double height = 0;  ///< ...
  Access typical;     ///< of the commonest reason
};

/// Nothing when every place is recommended, or the face is empty.
[[nodiscard]] std::optional<FaceLoss> face_loss(const Face& face);

}  // namespace ahead::coach
