#include "capture/table/find_table.h"

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include "capture/table/cloth_regions.h"
#include "capture/table/read_corners.h"

namespace ahead::capture {
namespace {

/// Below this it is no table, and from this on nothing better is looked for.
constexpr double least_score = 0.28;
constexpr double good_score = 0.45;

/// Wood that looks like the cloth: its usual widths, with and without its front.
constexpr std::array rims{Rim{0.11, 0},    Rim{0.14, 0},    Rim{0.17, 0},
                          Rim{0.11, 0.12}, Rim{0.14, 0.12}, Rim{0.17, 0.12}};

std::optional<Reading> best_reading(const cv::Mat& picture, const engine::Table& table) {
  const std::vector<ClothRegion> regions = cloth_regions(picture);
  std::optional<Reading> best;
  const auto consider = [&](const ClothRegion& region, const std::optional<Rim>& rim) {
    // Two of the four ways round are told apart by the table's shape and its pockets ...
    for (const std::size_t first : {0U, 1U}) {
      const auto reading = read_corners(picture, table, region.corners, first, rim);
      if (reading && (!best || reading->score > best->score)) best = reading;
    }
  };
  for (const ClothRegion& region : regions) consider(region, std::nullopt);
  if (!best || best->score < good_score) {
    for (const ClothRegion& region : regions) {
      for (const Rim& rim : rims) consider(region, rim);
    }
  }
  if (best) best = read_again(picture, table, *best);
  return best;
}

}  // namespace

std::expected<FoundTable, Refusal> find_table(const cv::Mat& picture, const engine::Table& table) {
  const std::optional<Reading> best = best_reading(picture, table);
  if (!best || best->score < least_score) {
    return std::unexpected(
        Refusal{.wrong = "no table is found in it",
                .mend = "mark the four corners (--corners), or choose a picture with all of them"});
  }
  // ... and the other two by the baulk line; failing that, by which end is nearer.
  const auto turned = [&](const Camera& camera) {
    Camera other = camera;
    for (Vec3& axis : other.axes) axis = {-axis.x, -axis.y, axis.z};
    other.at = {table.width_m - camera.at.x, table.length_m - camera.at.y, camera.at.z};
    return other;
  };
  constexpr double telling = 0.25;
  const bool known = std::abs(best->baulk) > telling;
  const bool wrong_way = known ? best->baulk < 0 : best->fit.camera.at.y > table.length_m / 2;
  FoundTable found{.fit = best->fit, .ends_known = known};
  if (wrong_way) {
    // The covariance turns with it: places change their sign, turns about the camera's own axes and
    // the lens do not.
    found.fit.camera = turned(found.fit.camera);
    for (std::size_t a = 0; a < camera_unknowns; ++a) {
      for (std::size_t b = 0; b < camera_unknowns; ++b) {
        const bool flips_a = a == 5 || a == 6;
        const bool flips_b = b == 5 || b == 6;
        if (flips_a != flips_b) found.fit.covariance[a][b] = -found.fit.covariance[a][b];
      }
    }
  }
  return found;
}

}  // namespace ahead::capture
