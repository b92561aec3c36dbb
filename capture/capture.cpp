#include "capture/capture.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>

#include <opencv2/imgproc.hpp>

#include "capture/balls/cloth.h"
#include "capture/balls/find_balls.h"
#include "capture/balls/tell_colours.h"
#include "capture/camera/nose_edges.h"
#include "capture/picture/mat.h"
#include "capture/table/find_table.h"

namespace ahead::capture {
namespace {

/// The longest side on which balls are looked for: finer pixels of a large photograph are averaged,
/// which takes noise away and loses nothing that the fit of an outline would use.
constexpr int longest_side = 1600;
/// What is less than this is not worth a person's look.
constexpr double least_confidence = 0.15;
/// Balls below this confidence are for a person to confirm.
constexpr double sure = 0.75;
/// And those whose place is known no better than this.
constexpr double sure_within_m = 0.008;

cv::Mat workable(const Picture& picture, double scale) {
  cv::Mat small;
  if (scale < 1) {
    cv::resize(as_mat(picture), small, {}, scale, scale, cv::INTER_AREA);
  } else {
    small = as_mat(picture);
  }
  cv::Mat fine;
  small.convertTo(fine, CV_32FC3);
  return fine;
}

Vec2 shrunk(Vec2 pixel, double scale) {
  return scale * (pixel + Vec2{0.5, 0.5}) - Vec2{0.5, 0.5};
}

/// Points first, then the noses' edges, sought ever closer.
CameraFit fit_to_noses(const cv::Mat& picture, const engine::Table& table,
                       std::span<const SeenPoint> points, CameraFit fit) {
  const double unit_px = std::max(picture.cols, picture.rows) / 1280.0;
  const Cloth cloth = learn_cloth(picture, fit.camera, table);
  for (const double reach : {6.0, 3.0, 2.0}) {
    std::vector<SeenEdge> edges = nose_edges(picture, fit.camera, table, reach * unit_px);
    const std::vector<SeenEdge> backs = back_edges(picture, cloth, fit, table);
    edges.insert(edges.end(), backs.begin(), backs.end());
    fit = refined(fit, points, edges);
  }
  return fit;
}

std::expected<FoundTable, Refusal> see_table(const cv::Mat& fine, const engine::Table& table,
                                             std::span<const SeenPoint> points, double scale) {
  if (points.empty()) {
    auto found = find_table(fine, table);
    if (!found) return found;
    // From here on as if a person had marked the corners, with an unsteady hand.
    std::vector<SeenPoint> marked;
    for (const Vec3 corner : nose_corners(table)) {
      if (const auto pixel = pixel_of(found->fit.camera, corner)) {
        marked.push_back({corner, *pixel, 3 * marked_sigma_px});
      }
    }
    found->fit = fit_to_noses(fine, table, marked, found->fit);
    return found;
  }
  std::vector<SeenPoint> shrunk_points;
  for (const SeenPoint& seen : points) {
    shrunk_points.push_back({.point = seen.point,
                             .pixel = shrunk(seen.pixel, scale),
                             .sigma_px = std::max(seen.sigma_px * scale, 0.5)});
  }
  const auto first = camera_from_points(shrunk_points, fine.cols, fine.rows);
  if (!first) return std::unexpected(first.error());
  return FoundTable{.fit = fit_to_noses(fine, table, shrunk_points, *first), .ends_known = true};
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
  const auto radius = [&](const CapturedBall& ball) {
    return (ball.ball.colour == coach::Colour::cue ? table.cue_ball : table.object_ball).radius_m;
  };
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

std::string id_of(coach::Colour colour, int number) {
  switch (colour) {
    case coach::Colour::cue: return "cue";
    case coach::Colour::black: return "black";
    case coach::Colour::yellow: return "yellow-" + std::to_string(number);
    case coach::Colour::solid: return "solid-" + std::to_string(number);
    case coach::Colour::stripe: return "stripe-" + std::to_string(number);
    default: return "red-" + std::to_string(number);
  }
}

/// Cue ball, then by colour, each from the baulk end up; numbered in that order.
void name_balls(std::vector<CapturedBall>& balls) {
  std::ranges::stable_sort(balls, [](const CapturedBall& a, const CapturedBall& b) {
    if (a.ball.colour != b.ball.colour) return a.ball.colour < b.ball.colour;
    return a.ball.at.y < b.ball.at.y;
  });
  int number = 0;
  for (std::size_t i = 0; i < balls.size(); ++i) {
    const bool same = i > 0 && balls[i].ball.colour == balls[i - 1].ball.colour;
    number = same ? number + 1 : 1;
    balls[i].ball.id = id_of(balls[i].ball.colour, number);
  }
}

std::vector<std::string> doubtful_of(std::vector<CapturedBall>& balls) {
  std::vector<const CapturedBall*> unsure;
  for (CapturedBall& ball : balls) {
    ball.doubtful = ball.confidence < sure || ball.ball.sigma_m > sure_within_m;
    if (ball.doubtful) unsure.push_back(&ball);
  }
  std::ranges::stable_sort(unsure, {}, &CapturedBall::confidence);
  std::vector<std::string> ids;
  for (const CapturedBall* ball : unsure) ids.push_back(ball->ball.id);
  return ids;
}

}  // namespace

std::array<Vec3, 4> nose_corners(const engine::Table& table) {
  const double h = table.nose_height_m;
  return {Vec3{0, 0, h}, Vec3{table.width_m, 0, h}, Vec3{table.width_m, table.length_m, h},
          Vec3{0, table.length_m, h}};
}

std::expected<Captured, Refusal> capture_photograph(const Picture& picture,
                                                    const engine::Table& table,
                                                    std::span<const SeenPoint> points) {
  const double longest = std::max(picture.width, picture.height);
  const double scale = std::min(1.0, longest_side / longest);
  const cv::Mat fine = workable(picture, scale);

  const auto seen = see_table(fine, table, points, scale);
  if (!seen) return std::unexpected(seen.error());
  const CameraFit& fit = seen->fit;

  const Cloth cloth = learn_cloth(fine, fit.camera, table);
  std::vector<FoundBall> found = find_balls(fine, cloth, fit.camera, table);
  const bool american = table.id.starts_with("american");
  const std::vector<ToldColour> told = tell_colours(
      fine, fit.camera, found, american ? BallSet::american : BallSet::english);

  Captured captured{.camera = scaled(fit.camera, 1 / scale), .residual_px = fit.residual_px / scale,
                    .ends_known = seen->ends_known};
  captured.camera.width_px = picture.width;
  captured.camera.height_px = picture.height;
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
      if (const auto again = fit_outline(fine, cloth, fit.camera, start, others)) ball.fit = *again;
    }
    const Covariance2 more = from_camera(fit, ball.fit.at, ball.radius_m);
    CapturedBall one{.ball = {.colour = told[i].colour, .at = ball.fit.at},
                     .confidence = confidence,
                     .xx = ball.fit.covariance.xx + more.xx,
                     .xy = ball.fit.covariance.xy + more.xy,
                     .yy = ball.fit.covariance.yy + more.yy};
    one.ball.sigma_m = std::sqrt((one.xx + one.yy) / 2);
    captured.balls.push_back(std::move(one));
  }
  part(captured.balls, table);
  name_balls(captured.balls);
  for (CapturedBall& ball : captured.balls) {
    const double radius_m =
        (ball.ball.colour == coach::Colour::cue ? table.cue_ball : table.object_ball).radius_m;
    ball.pixel =
        pixel_of(captured.camera, engine::lift(ball.ball.at, radius_m)).value_or(Vec2{});
  }
  captured.doubtful = doubtful_of(captured.balls);
  captured.layout.table = table;
  captured.layout.rules = american ? coach::Rules::american_8ball : coach::Rules::international;
  for (const CapturedBall& ball : captured.balls) captured.layout.balls.push_back(ball.ball);
  captured.points.assign(points.begin(), points.end());
  return captured;
}

}  // namespace ahead::capture
