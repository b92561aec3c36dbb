#include "capture/see.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

#include <opencv2/imgproc.hpp>

#include "capture/balls/find_balls.h"
#include "capture/balls/fit_outline.h"
#include "capture/balls/tell_colours.h"
#include "capture/camera/nose_edges.h"

namespace ahead::capture {
namespace {

/// What is less than this is not worth a person's look.
constexpr double least_confidence = 0.15;

/// The longest side of the picture in which a table that nobody has marked is looked for.
constexpr int table_side = 800;

/// Whether the camera sees one of the points nowhere near where it was marked.
bool strays(const Camera& camera, std::span<const SeenPoint> points) {
  return std::ranges::any_of(points, [&](const SeenPoint& seen) {
    const auto pixel = pixel_of(camera, seen.point);
    return !pixel || norm(*pixel - seen.pixel) > 3 * seen.sigma_px;
  });
}

/// Points first, then the noses' edges, sought ever closer. Where a shadow's edge or the back of a
/// cushion was taken for a nose the points say so: then no further off than a person may have
/// missed, and in the end by the points alone.
CameraFit fit_to_noses(const cv::Mat& picture, const engine::Table& table,
                       std::span<const SeenPoint> points, const CameraFit& start) {
  const double unit_px = std::max(picture.cols, picture.rows) / 1280.0;
  const Cloth cloth = learn_cloth(picture, start.camera, table);
  for (const double furthest : {6.0, 3.0}) {
    CameraFit fit = start;
    for (const double share : {1.0, 0.5, 1.0 / 3}) {
      std::vector<SeenEdge> edges =
          nose_edges(picture, fit.camera, table, share * furthest * unit_px);
      const std::vector<SeenEdge> backs = back_edges(picture, cloth, fit, table);
      edges.insert(edges.end(), backs.begin(), backs.end());
      fit = refined(fit, points, edges);
    }
    if (!strays(fit.camera, points)) return fit;
  }
  return start;
}

/// What the camera's own uncertainty adds to a place: the same pixel looked at through cameras
/// that are each a little changed.
Covariance2 from_camera(const CameraFit& fit, Vec2 at, double radius_m) {
  const auto pixel = pixel_of(fit.camera, engine::lift(at, radius_m));
  if (!pixel) return {};
  std::array<Vec2, camera_unknowns> slope{};
  for (std::size_t k = 0; k < slope.size(); ++k) {
    CameraStep step{};
    constexpr double small = 1e-5;
    step[k] = small;
    const auto moved = on_plane(changed(fit.camera, step), *pixel, radius_m);
    if (moved) slope[k] = (*moved - at) / small;
  }
  Covariance2 sum;
  for (std::size_t a = 0; a < slope.size(); ++a) {
    for (std::size_t b = 0; b < slope.size(); ++b) {
      const double c = fit.covariance[a][b];
      sum.xx += c * slope[a].x * slope[b].x;
      sum.xy += c * slope[a].x * slope[b].y;
      sum.yy += c * slope[a].y * slope[b].y;
    }
  }
  return sum;
}

/// A sphere that touches cannot be nearer: pairs that overlap part by their uncertainties, and a
/// ball inside a cushion comes out.
void part(std::vector<CapturedBall>& balls, const engine::Table& table) {
  const auto radius = [&](const CapturedBall& ball) { return radius_of(table, ball.ball.colour); };
  for (int round = 0; round < 20; ++round) {
    for (CapturedBall& ball : balls) {
      Vec2& at = ball.ball.at;
      const double r = radius(ball);
      const bool in_mouth = std::ranges::any_of(table.pockets, [&](const engine::Pocket& pocket) {
        return norm(at - pocket.centre) < pocket.fall_radius_m + 2 * r;
      });
      if (in_mouth) continue;
      at.x = std::clamp(at.x, r, table.width_m - r);
      at.y = std::clamp(at.y, r, table.length_m - r);
    }
    for (std::size_t i = 0; i < balls.size(); ++i) {
      for (std::size_t j = i + 1; j < balls.size(); ++j) {
        CapturedBall& a = balls[i];
        CapturedBall& b = balls[j];
        const double least = 2 * std::sqrt(radius(a) * radius(b));
        const Vec2 between = b.ball.at - a.ball.at;
        const double apart = norm(between);
        if (apart >= least || apart == 0) continue;
        const double of_a = a.xx + a.yy;
        const double share = of_a / (of_a + b.xx + b.yy);
        const Vec2 push = (least - apart + 1e-6) * unit(between);
        a.ball.at = a.ball.at - share * push;
        b.ball.at = b.ball.at + (1 - share) * push;
      }
    }
  }
}

}  // namespace

std::expected<FoundTable, Refusal> see_table(const cv::Mat& picture, const engine::Table& table,
                                             std::span<const SeenPoint> points) {
  if (points.empty()) {
    // Finely enough to know the table by; what follows is done on the whole picture.
    const double scale = std::min(1.0, 1.0 * table_side / std::max(picture.cols, picture.rows));
    cv::Mat smaller;
    cv::resize(picture, smaller, {}, scale, scale, cv::INTER_AREA);
    auto found = find_table(smaller, table);
    if (!found) return found;
    found->fit.camera = scaled(found->fit.camera, 1 / scale);
    found->fit.camera.width_px = picture.cols;
    found->fit.camera.height_px = picture.rows;
    // From here on as if a person had marked the corners, with an unsteady hand.
    std::vector<SeenPoint> marked;
    for (const Vec3 corner : nose_corners(table)) {
      if (const auto pixel = pixel_of(found->fit.camera, corner)) {
        marked.push_back({corner, *pixel, 3 * marked_sigma_px});
      }
    }
    found->fit = fit_to_noses(picture, table, marked, found->fit);
    return found;
  }
  const auto first = camera_from_points(points, picture.cols, picture.rows);
  if (!first) return std::unexpected(first.error());
  return FoundTable{.fit = fit_to_noses(picture, table, points, *first), .ends_known = true};
}

double radius_of(const engine::Table& table, coach::Colour colour) {
  return (colour == coach::Colour::cue ? table.cue_ball : table.object_ball).radius_m;
}

std::vector<CapturedBall> see_balls(const cv::Mat& picture, const Cloth& cloth,
                                    const CameraFit& fit, const engine::Table& table) {
  std::vector<FoundBall> found = find_balls(picture, cloth, fit.camera, table);
  const std::vector<ToldColour> told =
      tell_colours(picture, fit.camera, found,
                   table.id.starts_with("american") ? BallSet::american : BallSet::english);
  std::vector<CapturedBall> balls;
  for (std::size_t i = 0; i < found.size(); ++i) {
    FoundBall& ball = found[i];
    const double confidence = ball.quality * told[i].confidence * told[i].evidence;
    if (confidence < least_confidence) continue;
    if (told[i].colour == coach::Colour::cue && table.cue_ball.radius_m != ball.radius_m) {
      ball.radius_m = table.cue_ball.radius_m;
      std::vector<Sphere> others;
      for (std::size_t k = 0; k < found.size(); ++k) {
        if (k != i) others.push_back({.at = found[k].fit.at, .radius_m = found[k].radius_m});
      }
      const Sphere start{.at = ball.fit.at, .radius_m = ball.radius_m};
      if (const auto again = fit_outline(picture, cloth, fit.camera, start, others))
        ball.fit = *again;
    }
    const Covariance2 more = from_camera(fit, ball.fit.at, ball.radius_m);
    CapturedBall one{.ball = {.colour = told[i].colour, .at = ball.fit.at},
                     .confidence = confidence,
                     .xx = ball.fit.covariance.xx + more.xx,
                     .xy = ball.fit.covariance.xy + more.xy,
                     .yy = ball.fit.covariance.yy + more.yy};
    one.ball.sigma_m = std::sqrt((one.xx + one.yy) / 2);
    balls.push_back(std::move(one));
  }
  part(balls, table);
  return balls;
}

}  // namespace ahead::capture
