#include "capture/balls/ball_size.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "capture/balls/cloth.h"
#include "capture/balls/find_balls.h"

namespace ahead::capture {
namespace {

/// Sizes are tried by this factor and its powers, up to double and down to half.
constexpr double step = 1.085;
constexpr std::size_t steps = 8;
/// Finely enough for a size, px.
constexpr double longest_side = 800;
/// Fewer balls say nothing.
constexpr std::size_t least_balls = 3;

struct Likeness {
  double quality = 0;  // of all likely balls together
  std::size_t balls = 0;
};

Likeness likeness_at(const cv::Mat& picture, const Cloth& cloth, const Camera& camera,
                     engine::Table table, double size) {
  constexpr double likely = 0.5;
  table.object_ball.radius_m *= size;
  Likeness all;
  for (const FoundBall& ball : find_balls(picture, cloth, camera, table)) {
    if (ball.quality < likely) continue;
    all.quality += ball.quality;
    ++all.balls;
  }
  return all;
}

}  // namespace

std::optional<double> ball_size(const cv::Mat& picture, const Camera& camera,
                                const engine::Table& table) {
  const double scale = std::min(1.0, longest_side / std::max(picture.cols, picture.rows));
  cv::Mat small;
  cv::resize(picture, small, {}, scale, scale, cv::INTER_AREA);
  const Camera shrunk = scaled(camera, scale);
  const Cloth cloth = learn_cloth(small, shrunk, table);

  // The n-th of the sizes; `steps` is the table's own.
  constexpr std::size_t last = 2 * steps;
  const auto size_of = [](double place) { return std::pow(step, place - steps); };
  std::array<std::optional<Likeness>, last + 1> known;
  const auto at = [&](std::size_t n) -> const Likeness& {
    auto& one = known.at(n);
    if (!one) {
      one = likeness_at(small, cloth, shrunk, table, size_of(static_cast<double>(n)));
    }
    return *one;
  };
  std::size_t best = steps;
  const bool as_expected = at(steps).balls >= least_balls &&
                           at(steps).quality >= at(steps - 1).quality &&
                           at(steps).quality >= at(steps + 1).quality;
  if (!as_expected) {
    for (std::size_t n = 0; n <= last; ++n) {
      if (at(n).quality > at(best).quality) best = n;
    }
  }
  if (at(best).balls < least_balls) return std::nullopt;
  const auto place = static_cast<double>(best);
  if (best == 0 || best == last) return size_of(place);
  // The top of the parabola through the best and its neighbours.
  const double below = at(best - 1).quality;
  const double here = at(best).quality;
  const double above = at(best + 1).quality;
  const double bend = below - 2 * here + above;
  const double aside = bend < 0 ? (below - above) / (2 * bend) : 0;
  return size_of(place + std::clamp(aside, -0.5, 0.5));
}

}  // namespace ahead::capture
