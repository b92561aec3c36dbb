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
constexpr int steps = 8;
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

  std::array<std::optional<Likeness>, 2 * steps + 1> known;
  const auto at = [&](int power) -> const Likeness& {
    auto& one = known[static_cast<std::size_t>(power + steps)];
    if (!one) one = likeness_at(small, cloth, shrunk, table, std::pow(step, power));
    return *one;
  };
  int best = 0;
  const bool as_expected = at(0).balls >= least_balls && at(0).quality >= at(-1).quality &&
                           at(0).quality >= at(1).quality;
  if (!as_expected) {
    for (int power = -steps; power <= steps; ++power) {
      if (at(power).quality > at(best).quality) best = power;
    }
  }
  if (at(best).balls < least_balls) return std::nullopt;
  if (std::abs(best) == steps) return std::pow(step, best);
  // The top of the parabola through the best and its neighbours.
  const double below = at(best - 1).quality;
  const double here = at(best).quality;
  const double above = at(best + 1).quality;
  const double bend = below - 2 * here + above;
  const double aside = bend < 0 ? (below - above) / (2 * bend) : 0;
  return std::pow(step, best + std::clamp(aside, -0.5, 0.5));
}

}  // namespace ahead::capture
