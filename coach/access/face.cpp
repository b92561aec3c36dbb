#include "coach/access/face.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace ahead::coach {

const FacePlace* Face::nearest(double side, double height) const {
  const auto off = [&](const FacePlace& place) {
    return std::hypot(place.side - side, place.height - height);
  };
  const auto found = std::ranges::min_element(places, {}, off);
  return found != places.end() && off(*found) <= spacing ? &*found : nullptr;
}

Face face_of(const Scene& scene, const Position& position, double aim_rad) {
  constexpr int half = 6;
  const double limit = scene.field.table().cue.miscue_offset;
  Face face{.spacing = limit / half};
  Approach approach(scene, position, aim_rad);
  for (int row = -half; row <= half; ++row) {
    for (int column = -half; column <= half; ++column) {
      if (row * row + column * column > half * half) continue;
      const double side = column * face.spacing;
      const double height = row * face.spacing;
      face.places.push_back({.side = side, .height = height, .access = approach.at(side, height)});
    }
  }
  return face;
}

std::optional<FaceLoss> face_loss(const Face& face) {
  FaceLoss loss;
  using Kind = std::tuple<int, int, int>;  // reason or none, ball, what asks for the elevation
  std::map<Kind, int> kinds;
  int most = 0;
  int lost = 0;
  for (const FacePlace& place : face.places) {
    const Access& access = place.access;
    if (recommended(access)) continue;
    ++lost;
    loss.side += place.side;
    loss.height += place.height;
    const Kind kind = access.blocked
                          ? Kind{static_cast<int>(access.blocked->why), access.blocked->ball, 0}
                          : Kind{-1, access.raised_by_ball, static_cast<int>(access.raised_by)};
    if (++kinds[kind] > most) {
      most = kinds[kind];
      loss.typical = access;
    }
  }
  if (lost == 0) return std::nullopt;
  loss.share = static_cast<double>(lost) / static_cast<double>(face.places.size());
  loss.side /= lost;
  loss.height /= lost;
  return loss;
}

}  // namespace ahead::coach
