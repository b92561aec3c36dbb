#include "capture/camera/fit_camera.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <opencv2/core.hpp>

#include "capture/camera/first_camera.h"
#include "capture/camera/possible_points.h"

namespace ahead::capture {
namespace {

/// The camera's, and the two of the cushions' backs.
constexpr int unknowns = camera_unknowns + 2;
using Normal = cv::Matx<double, unknowns, unknowns>;
using Column = cv::Vec<double, unknowns>;
using Step = std::array<double, unknowns>;

struct Sight {
  Camera camera;
  CushionBack back;
};

Sight changed(const Sight& sight, const Step& step) {
  CameraStep of_camera{};
  std::copy_n(step.begin(), camera_unknowns, of_camera.begin());
  return {
      .camera = capture::changed(sight.camera, of_camera),
      .back = {.behind_m = sight.back.behind_m + step[8], .above_m = sight.back.above_m + step[9]}};
}

/// What is known of any camera before a point is seen: lenses that people carry have a k1 near
/// nought and see the wider side of the picture under 30 to 100 degrees. Assumptions, and weak
/// ones.
constexpr double k1_sigma = 0.15;
constexpr double log_focal_sigma = 0.6;
constexpr double usual_focal_widths = 0.9;
/// Cushions are 4 to 6 cm deep and their tops rise a little to the wood: assumptions, one sigma.
constexpr CushionBack usual_back;
constexpr double behind_sigma_m = 0.012;
constexpr double above_sigma_m = 0.004;
/// A residual that no camera explains costs this much and no more.
constexpr double lost_px = 1e3;
/// Root mean square beyond which four points are not those of a table, as a share of the wider
/// side.
constexpr double worst_residual = 0.02;

/// Edges along one line err together (light, blur, the rounding of a nose): for the uncertainty
/// each counts as known so many times worse. Measured on rendered photographs: docs/capture.md.
constexpr double alike = 1.5;

double wider(const Camera& camera) { return std::max(camera.width_px, camera.height_px); }

Vec3 turned(Vec3 v, Vec3 axis, double angle) {
  return std::cos(angle) * v + std::sin(angle) * cross(axis, v) +
         (1 - std::cos(angle)) * dot(axis, v) * axis;
}

/// One row a residual, each over its sigma.
std::vector<double> residuals(const Sight& sight, std::span<const SeenPoint> points,
                              std::span<const SeenEdge> edges) {
  const Camera& camera = sight.camera;
  std::vector<double> rows;
  rows.reserve(2 * points.size() + edges.size() + 4);
  for (const SeenPoint& seen : points) {
    const Vec2 miss =
        pixel_of(camera, seen.point).value_or(seen.pixel + Vec2{lost_px, 0}) - seen.pixel;
    rows.push_back(miss.x / seen.sigma_px);
    rows.push_back(miss.y / seen.sigma_px);
  }
  for (const SeenEdge& edge : edges) {
    Vec3 point = edge.point;
    if (edge.back != Vec3{}) {
      point += sight.back.behind_m * edge.back + Vec3{0, 0, sight.back.above_m};
    }
    const auto here = pixel_of(camera, point);
    const auto on = pixel_of(camera, point + 0.01 * edge.direction);
    const double miss = here && on ? dot(left_of(unit(*on - *here)), edge.pixel - *here) : lost_px;
    rows.push_back(miss / edge.sigma_px);
  }
  rows.push_back(camera.k1 / k1_sigma);
  rows.push_back(std::log(camera.focal_px / (usual_focal_widths * wider(camera))) /
                 log_focal_sigma);
  rows.push_back((sight.back.behind_m - usual_back.behind_m) / behind_sigma_m);
  rows.push_back((sight.back.above_m - usual_back.above_m) / above_sigma_m);
  return rows;
}

/// Cauchy's weights for edges; points and what is known beforehand count in full.
std::vector<double> weights(const std::vector<double>& rows, std::size_t points,
                            std::size_t edges) {
  std::vector<double> all(rows.size(), 1);
  for (std::size_t i = 2 * points; i < 2 * points + edges; ++i) {
    all[i] = 1 / (1 + rows[i] * rows[i] / 4);
  }
  return all;
}

double cost(const std::vector<double>& rows, std::size_t points, std::size_t edges) {
  double sum = 0;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const double square = rows[i] * rows[i];
    sum += i >= 2 * points && i < 2 * points + edges ? 4 * std::log1p(square / 4) : square;
  }
  return sum;
}

struct System {
  Normal normal;
  Column gradient;
};

System system_at(const Sight& sight, std::span<const SeenPoint> points,
                 std::span<const SeenEdge> edges, const std::vector<double>& rows) {
  constexpr Step small{1e-6, 1e-6, 1e-7, 1e-7, 1e-7, 1e-6, 1e-6, 1e-6, 1e-6, 1e-6};
  const std::vector<double> weight = weights(rows, points.size(), edges.size());
  std::array<std::vector<double>, unknowns> slope;
  for (std::size_t k = 0; k < slope.size(); ++k) {
    Step step{};
    step[k] = small[k];
    slope[k] = residuals(changed(sight, step), points, edges);
    for (std::size_t i = 0; i < rows.size(); ++i) slope[k][i] = (slope[k][i] - rows[i]) / small[k];
  }
  System system{};
  for (int a = 0; a < unknowns; ++a) {
    const auto& row_a = slope[static_cast<std::size_t>(a)];
    for (std::size_t i = 0; i < rows.size(); ++i) {
      system.gradient[a] += weight[i] * row_a[i] * rows[i];
    }
    for (int b = 0; b < unknowns; ++b) {
      const auto& row_b = slope[static_cast<std::size_t>(b)];
      for (std::size_t i = 0; i < rows.size(); ++i) {
        system.normal(a, b) += weight[i] * row_a[i] * row_b[i];
      }
    }
  }
  return system;
}

struct Descent {
  Sight sight;
  double cost = 0;
};

Descent descend(Sight sight, std::span<const SeenPoint> points, std::span<const SeenEdge> edges,
                int steps) {
  std::vector<double> rows = residuals(sight, points, edges);
  double best = cost(rows, points.size(), edges.size());
  double damping = 1e-3;
  for (int i = 0; i < steps; ++i) {
    const System system = system_at(sight, points, edges, rows);
    bool better = false;
    for (int tries = 0; tries < 8 && !better; ++tries) {
      Normal damped = system.normal;
      for (int a = 0; a < unknowns; ++a) damped(a, a) *= 1 + damping;
      const Column move = damped.solve(system.gradient, cv::DECOMP_SVD);
      Step step{};
      for (int a = 0; a < unknowns; ++a) step[static_cast<std::size_t>(a)] = -move[a];
      const Sight next = changed(sight, step);
      const std::vector<double> next_rows = residuals(next, points, edges);
      const double next_cost = cost(next_rows, points.size(), edges.size());
      if (next_cost < best) {
        better = true;
        const bool done = best - next_cost < 1e-9 * best;
        sight = next;
        rows = next_rows;
        best = next_cost;
        damping = std::max(damping / 5, 1e-12);
        if (done) return {.sight = sight, .cost = best};
      } else {
        damping *= 6;
      }
    }
    if (!better) break;
  }
  return {.sight = sight, .cost = best};
}

double root_mean_square(const Sight& sight, std::span<const SeenPoint> points,
                        std::span<const SeenEdge> edges) {
  const std::vector<double> rows = residuals(sight, points, edges);
  const std::vector<double> weight = weights(rows, points.size(), edges.size());
  double sum = 0;
  double count = 0;
  for (std::size_t i = 0; i < 2 * points.size() + edges.size(); ++i) {
    const bool point = i < 2 * points.size();
    const double sigma = point ? points[i / 2].sigma_px : edges[i - 2 * points.size()].sigma_px;
    sum += weight[i] * rows[i] * rows[i] * sigma * sigma;
    count += point ? 0.5 * weight[i] : weight[i];
  }
  return std::sqrt(sum / std::max(count, 1.0));
}

CameraFit fitted(const Sight& sight, std::span<const SeenPoint> points,
                 std::span<const SeenEdge> edges) {
  CameraFit fit{.camera = sight.camera,
                .residual_px = root_mean_square(sight, points, edges),
                .back = sight.back};
  std::vector<SeenEdge> fewer(edges.begin(), edges.end());
  for (SeenEdge& edge : fewer) edge.sigma_px *= alike;
  const std::vector<double> rows = residuals(sight, points, fewer);
  const Normal inverse = system_at(sight, points, fewer, rows).normal.inv(cv::DECOMP_SVD);
  for (int a = 0; a < camera_unknowns; ++a) {
    for (int b = 0; b < camera_unknowns; ++b) {
      fit.covariance[static_cast<std::size_t>(a)][static_cast<std::size_t>(b)] = inverse(a, b);
    }
  }
  return fit;
}

}  // namespace

Camera changed(const Camera& camera, const CameraStep& step) {
  Camera next = camera;
  next.focal_px *= std::exp(step[0]);
  next.k1 += step[1];
  for (std::size_t k = 0; k < 3; ++k) {
    const Vec3 about = camera.axes[k];
    for (Vec3& axis : next.axes) axis = turned(axis, about, step[2 + k]);
  }
  next.axes[0] = unit(next.axes[0]);
  next.axes[1] = unit(tangential(next.axes[1], next.axes[0]));
  next.axes[2] = cross(next.axes[0], next.axes[1]);
  next.at += Vec3{step[5], step[6], step[7]};
  return next;
}

std::expected<CameraFit, Refusal> camera_from_points(std::span<const SeenPoint> points,
                                                     double width_px, double height_px) {
  const Camera bare{.width_px = width_px, .height_px = height_px};
  if (auto refusal = impossible(points, wider(bare))) return std::unexpected(*refusal);

  double height_m = 0;
  for (const SeenPoint& seen : points) height_m += seen.point.z;
  height_m /= static_cast<double>(points.size());
  const cv::Matx33d h = plan_to_picture(points, bare);

  std::optional<Descent> best;
  for (const double focal : {0.5, 0.7, 0.9, 1.2, 1.7, 2.5, 4.0}) {
    const auto start = camera_of_plan(h, focal, bare, height_m);
    if (!start) continue;
    const Descent end = descend({.camera = *start, .back = {}}, points, {}, 60);
    if (end.sight.camera.at.z > 0 && (!best || end.cost < best->cost)) best = end;
  }
  const double share = best ? root_mean_square(best->sight, points, {}) / wider(bare) : 1;
  if (!(share < worst_residual)) {
    return std::unexpected(
        Refusal{.wrong = "no camera sees a table of this shape so: the points are off by " +
                         std::to_string(std::lround(share * wider(bare))) + " pixels",
                .mend = "check the points' order and the table's size (--table)"});
  }
  return fitted(best->sight, points, {});
}

CameraFit refined(const CameraFit& start, std::span<const SeenPoint> points,
                  std::span<const SeenEdge> edges) {
  const Sight sight{.camera = start.camera, .back = start.back};
  return fitted(descend(sight, points, edges, 40).sight, points, edges);
}

}  // namespace ahead::capture
