#include "capture/balls/fit_outline.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

#include "capture/picture/mat.h"

namespace ahead::capture {
namespace {

constexpr int rays = 64;
constexpr double step_px = 0.5;
/// Colours are compared over this many steps on either side of a place.
constexpr int window = 5;
/// Weaker steps of colour, in 255ths, are no edge.
constexpr float least_contrast = 14;
/// What one ray knows at best, px. It also covers the outline's softness.
constexpr double ray_sigma_px = 0.25;
/// How far the whole outline may be drawn aside, px.
constexpr double drawn_sigma_px = 0.1;
/// How much wider than the sphere an outline may look, for blur and shade.
constexpr double widening_sigma_px = 0.35;

/// Convex, in order; whether a place is inside, or within `border` pixels of it.
bool covers(const std::vector<Vec2>& outline, Vec2 at, double border) {
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2 from = outline[i];
    const Vec2 to = outline[(i + 1) % outline.size()];
    // The outline runs clockwise in the picture (y down): inside is at the cross product's plus.
    if (cross(unit(to - from), at - from) < -border) return false;
  }
  return !outline.empty();
}

struct Edge {
  double offset_px = 0;  // outwards
  float contrast = 0;
};

/// The best step of colour along a ray from inside to outside.
std::optional<Edge> edge_on(const cv::Mat& picture, const Cloth& cloth, Vec2 pixel, Vec2 outwards,
                            double reach_px) {
  const int half = static_cast<int>(std::lround(reach_px / step_px));
  const int count = 2 * (half + window) + 1;
  std::array<Colour3, 128> colour;
  std::array<float, 128> evidence{};
  if (count > static_cast<int>(colour.size())) return std::nullopt;
  for (int i = 0; i < count; ++i) {
    const Vec2 at = pixel + step_px * (i - half - window) * outwards;
    colour[static_cast<std::size_t>(i)] = sampled<Colour3>(picture, at);
    evidence[static_cast<std::size_t>(i)] = sampled<float>(cloth.evidence, at);
  }
  const auto mean = [&](int from, int to) {
    Colour3 sum;
    for (int i = from; i <= to; ++i) sum += colour[static_cast<std::size_t>(i)];
    return sum * (1.0F / static_cast<float>(to - from + 1));
  };
  const auto mean_evidence = [&](int from, int to) {
    float sum = 0;
    for (int i = from; i <= to; ++i) sum += evidence[static_cast<std::size_t>(i)];
    return sum / static_cast<float>(to - from + 1);
  };
  int best = -1;
  float best_score = 0;
  Colour3 best_in;
  Colour3 best_out;
  for (int i = window; i < count - window; ++i) {
    const Colour3 in = mean(i - window, i - 1);
    const Colour3 out = mean(i + 1, i + window);
    const Colour3 step = in - out;
    const float contrast = std::sqrt(step.dot(step));
    if (contrast < least_contrast) continue;
    // From ball to cloth, and not from shade to light.
    const float change =
        std::max(0.0F, mean_evidence(i - window, i - 1) - mean_evidence(i + 1, i + window));
    const auto off = static_cast<float>((i - half - window) * step_px / reach_px);
    const float score = std::min(contrast, 80.0F) * (0.15F + change) * std::exp(-off * off);
    if (score > best_score) {
      best_score = score;
      best = i;
      best_in = in;
      best_out = out;
    }
  }
  if (best < 0) return std::nullopt;
  // Where the colour is half way between the two.
  const Colour3 step = best_in - best_out;
  const float square = step.dot(step);
  const auto part = [&](int i) {
    return (colour[static_cast<std::size_t>(i)] - best_out).dot(step) / square;
  };
  for (int i = best - 3; i < best + 3; ++i) {
    const float here = part(i);
    const float next = part(i + 1);
    if (here >= 0.5F && next < 0.5F) {
      const double place = i + static_cast<double>((here - 0.5F) / (here - next));
      return Edge{.offset_px = (place - half - window) * step_px, .contrast = std::sqrt(square)};
    }
  }
  return Edge{.offset_px = (best - half - window) * step_px, .contrast = std::sqrt(square)};
}

Vec2 mean(const std::vector<Vec2>& points) {
  Vec2 sum;
  for (const Vec2 point : points) sum = sum + point;
  return sum / static_cast<double>(points.size());
}

struct Normal3 {
  cv::Matx33d matrix = cv::Matx33d::zeros();
  cv::Vec3d right;
};

}  // namespace

std::optional<OutlineFit> fit_outline(const cv::Mat& picture, const Cloth& cloth,
                                      const Camera& camera, const Sphere& start,
                                      std::span<const Sphere> hiding) {
  const double radius_m = start.radius_m;
  const auto outline_at = [&](Vec2 at) {
    return outline_of(camera, engine::lift(at, radius_m), radius_m, rays);
  };
  std::vector<std::vector<Vec2>> hidden_by;
  const double away = norm(engine::lift(start.at, radius_m) - camera.at);
  for (const Sphere& other : hiding) {
    const Vec3 centre = engine::lift(other.at, other.radius_m);
    if (norm(centre - camera.at) < away) {
      hidden_by.push_back(outline_of(camera, centre, other.radius_m, 32));
    }
  }

  OutlineFit fit{.at = start.at};
  constexpr double nudge_m = 1e-4;
  constexpr int rounds = 6;
  for (int round = 0; round < rounds; ++round) {
    const std::vector<Vec2> outline = outline_at(fit.at);
    const std::vector<Vec2> aside = outline_at(fit.at + Vec2{nudge_m, 0});
    const std::vector<Vec2> beyond = outline_at(fit.at + Vec2{0, nudge_m});
    if (outline.empty() || aside.empty() || beyond.empty()) return std::nullopt;

    double perimeter = 0;
    for (std::size_t i = 0; i < outline.size(); ++i) {
      perimeter += norm(outline[(i + 1) % outline.size()] - outline[i]);
    }
    fit.apparent_px = perimeter / (2 * std::numbers::pi);
    const double reach = std::max(1.5, (round == 0   ? 0.5
                                        : round == 1 ? 0.3
                                                     : 0.2) *
                                           fit.apparent_px);

    // Unknowns: the place in units of a millimetre, and how much wider the outline looks.
    Normal3 normal;
    normal.matrix(2, 2) = 1 / (widening_sigma_px * widening_sigma_px);
    int seen = 0;
    int supported = 0;
    double squares = 0;
    double weights = 0;
    for (std::size_t i = 0; i < outline.size(); ++i) {
      const Vec2 tangent = unit(outline[(i + 1) % outline.size()] -
                                outline[(i + outline.size() - 1) % outline.size()]);
      const Vec2 outwards{tangent.y, -tangent.x};
      const bool hidden = std::ranges::any_of(
          hidden_by, [&](const auto& other) { return covers(other, outline[i], 1.5); });
      if (hidden || !inside(picture, outline[i], 1)) continue;
      ++seen;
      const auto edge = edge_on(picture, cloth, outline[i], outwards, reach);
      if (!edge) continue;
      const cv::Vec3d slope{dot(outwards, aside[i] - outline[i]) / nudge_m * 1e-3,
                            dot(outwards, beyond[i] - outline[i]) / nudge_m * 1e-3, 1};
      const double scale = round < 2 ? 0.15 * fit.apparent_px : 0.7;
      const double weight = 1 / (1 + edge->offset_px * edge->offset_px / (scale * scale));
      normal.matrix += weight / (ray_sigma_px * ray_sigma_px) * (slope * slope.t());
      normal.right += weight * edge->offset_px / (ray_sigma_px * ray_sigma_px) * slope;
      if (std::abs(edge->offset_px) < std::max(1.3, 0.12 * fit.apparent_px)) ++supported;
      squares += weight * edge->offset_px * edge->offset_px;
      weights += weight;
    }
    fit.seen = static_cast<double>(seen) / rays;
    fit.supported = seen > 0 ? static_cast<double>(supported) / seen : 0;
    fit.rms_px = weights > 0 ? std::sqrt(squares / weights) : 0;
    if (seen < rays / 6 || weights < 4) return std::nullopt;
    // A ball that is half hidden may slip along its own edge: a weak hold at where it was.
    const double hold_mm = 40;
    normal.matrix(0, 0) += 1 / (hold_mm * hold_mm);
    normal.matrix(1, 1) += 1 / (hold_mm * hold_mm);
    // The whole outline may be drawn aside, by shade under the ball and light on it: a place that
    // every ray agrees on is still no better known than that.
    const Vec2 by_x = (1 / nudge_m) * (mean(aside) - mean(outline));
    const Vec2 by_y = (1 / nudge_m) * (mean(beyond) - mean(outline));
    const cv::Matx22d drawn(dot(by_x, by_x), dot(by_x, by_y), dot(by_x, by_y), dot(by_y, by_y));
    const cv::Matx22d aside_m2 = drawn_sigma_px * drawn_sigma_px * drawn.inv(cv::DECOMP_SVD);
    const cv::Matx33d inverse = normal.matrix.inv(cv::DECOMP_SVD);
    const cv::Vec3d step = inverse * normal.right;
    const double most_mm = 0.6e3 * radius_m;
    const double length = std::hypot(step[0], step[1]);
    const double shorter = length > most_mm ? most_mm / length : 1;
    fit.at = fit.at + 1e-3 * shorter * Vec2{step[0], step[1]};
    if (norm(fit.at - start.at) > 1.5 * radius_m) return std::nullopt;
    // Rays closer than two pixels tell the same.
    const double independent = std::min(1.0, perimeter / 2 / rays);
    const double variance =
        std::max(1.0, fit.rms_px * fit.rms_px / (ray_sigma_px * ray_sigma_px)) / independent;
    fit.covariance = {.xx = 1e-6 * variance * inverse(0, 0) + aside_m2(0, 0),
                      .xy = 1e-6 * variance * inverse(0, 1) + aside_m2(0, 1),
                      .yy = 1e-6 * variance * inverse(1, 1) + aside_m2(1, 1)};
  }
  return fit;
}

}  // namespace ahead::capture
