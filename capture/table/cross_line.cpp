#include "capture/table/cross_line.h"

#include <algorithm>

#include "capture/picture/mat.h"

namespace ahead::capture {

double line_seen(const cv::Mat& picture, const Camera& camera, const engine::Table& table,
                 double y_m) {
  int seen = 0;
  int count = 0;
  constexpr double rim_m = 0.06;
  constexpr double step_m = 0.012;
  const int places = static_cast<int>((table.width_m - 2 * rim_m) / step_m);
  for (int i = 0; i < places; ++i) {
    const double x = rim_m + i * step_m;
    const auto on = pixel_of(camera, {x, y_m, 0});
    const auto below = pixel_of(camera, {x, y_m - 0.014, 0});
    const auto above = pixel_of(camera, {x, y_m + 0.014, 0});
    if (!on || !below || !above || !inside(picture, *on, 3)) continue;
    const auto bright = [&](Vec2 at) {
      const auto c = sampled<Colour3>(picture, at);
      return c[0] + c[1] + c[2];
    };
    // The line is thin and the camera a little off: the brightest place near it.
    float best = 0;
    for (int k = -4; k <= 4; ++k) {
      const auto near = pixel_of(camera, {x, y_m + 0.0015 * k, 0});
      if (near) best = std::max(best, bright(*near));
    }
    ++count;
    if (best > 1.06F * std::max(bright(*below), bright(*above)) + 12) ++seen;
  }
  return count > 0 ? static_cast<double>(seen) / count : 0;
}

CrossLine brightest_line(const cv::Mat& picture, const Camera& camera, const engine::Table& table) {
  constexpr double step_m = 0.004;
  constexpr double rim_m = 0.08;
  CrossLine best;
  const int places = static_cast<int>((table.length_m - 2 * rim_m) / step_m);
  for (int i = 0; i <= places; ++i) {
    const double y_m = rim_m + i * step_m;
    const double seen = line_seen(picture, camera, table, y_m);
    if (seen > best.seen) best = {.y_m = y_m, .seen = seen};
  }
  return best;
}

std::vector<SeenEdge> line_edges(const Camera& camera, const engine::Table& table, double seen_y_m,
                                 double true_y_m) {
  constexpr int places = 30;
  std::vector<SeenEdge> edges;
  for (int i = 0; i < places; ++i) {
    const double x = (i + 0.5) / places * table.width_m;
    if (const auto pixel = pixel_of(camera, {x, seen_y_m, 0})) {
      edges.push_back(
          {.point = {x, true_y_m, 0}, .direction = {1, 0, 0}, .pixel = *pixel, .sigma_px = 1});
    }
  }
  return edges;
}

}  // namespace ahead::capture
