#include "capture/table/reading.h"

#include <algorithm>
#include <cmath>

#include "capture/camera/nose_edges.h"
#include "capture/picture/mat.h"
#include "capture/table/cross_line.h"

namespace ahead::capture {
namespace {

/// What was seen of a table where a camera expects it; all shares from 0 to 1.
struct Signs {
  double pockets = 0;  // of the pockets' mouths that do not look like cloth
  double noses = 0;    // of the noses along which an edge runs between cloth and cloth
  double bed = 0;      // of the bed that is cloth
  double usual = 0;    // how far the lens is one that people have
};

/// How many of the six pockets look like none of the cloth: 0 to 1.
double pockets_seen(const Cloth& cloth, const Camera& camera, const engine::Table& table) {
  double sum = 0;
  for (const engine::Pocket& pocket : table.pockets) {
    double dark = 0;
    double count = 0;
    for (int i = 0; i < 8; ++i) {
      const Vec2 at = pocket.centre + 0.6 * pocket.fall_radius_m * engine::direction(i * 0.7854);
      const auto pixel = pixel_of(camera, engine::lift(at, 0));
      if (!pixel || !inside(cloth.evidence, *pixel)) continue;
      dark += sampled<float>(cloth.with_shades, *pixel);
      count += 1;
    }
    sum += count > 0 ? dark / count : 0.3;
  }
  return sum / static_cast<double>(table.pockets.size());
}

/// Share of the bed that looks like its cloth: balls and hands are few.
double bed_seen(const Cloth& cloth, const Camera& camera, const engine::Table& table) {
  constexpr double step_m = 0.03;
  int bare = 0;
  int count = 0;
  const int rows = static_cast<int>(table.length_m / step_m);
  const int columns = static_cast<int>(table.width_m / step_m);
  for (int row = 1; row <= rows; ++row) {
    for (int column = 1; column <= columns; ++column) {
      const auto pixel = pixel_of(camera, {column * step_m, row * step_m, 0});
      ++count;
      if (!pixel || !inside(cloth.evidence, *pixel)) continue;
      bare += sampled<float>(cloth.evidence, *pixel) < 0.5F ? 1 : 0;
    }
  }
  return count > 0 ? static_cast<double>(bare) / count : 0;
}

/// How the signs are weighed was found on rendered photographs: docs/capture.md.
double score_of(const Signs& signs, double residual_px, double marks) {
  return signs.pockets * signs.noses * signs.bed * std::sqrt(signs.usual) * (1 + 0.3 * marks) /
         (1 + 0.3 * residual_px);
}

}  // namespace

std::optional<Reading> judged_reading(const cv::Mat& picture, const Cloth& cloth,
                                      const engine::Table& table, const CameraFit& fit) {
  const Camera& camera = fit.camera;
  if (camera.at.z <= 0) return std::nullopt;
  const double wider = std::max(picture.cols, picture.rows);
  // A lens that nobody has speaks against it.
  const double odd_focal = std::log(camera.focal_px / (0.9 * wider)) / 0.6;
  const double odd_bend = camera.k1 / 0.2;
  const Signs signs{.pockets = pockets_seen(cloth, camera, table),
                    .noses = noses_seen(picture, cloth, camera, table),
                    .bed = bed_seen(cloth, camera, table),
                    .usual = std::exp(-0.5 * (odd_focal * odd_focal + odd_bend * odd_bend))};
  const double baulk =
      line_seen(picture, camera, table, table.markings.baulk_line_m) -
      line_seen(picture, camera, table, table.length_m - table.markings.baulk_line_m);
  return Reading{.fit = fit,
                 .baulk = baulk,
                 .score = score_of(signs, 1280 / wider * fit.residual_px, std::abs(baulk))};
}

}  // namespace ahead::capture
