#include "capture/capture.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

#include <opencv2/imgproc.hpp>

#include "capture/balls/ball_size.h"
#include "capture/balls/cloth.h"
#include "capture/picture/mat.h"
#include "capture/see.h"
#include "capture/table/wrong_table.h"

namespace ahead::capture {
namespace {

/// The longest side on which balls are looked for: finer pixels of a large photograph are averaged,
/// which takes noise away and loses nothing that the fit of an outline would use.
constexpr int longest_side = 1600;
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

Vec2 shrunk(Vec2 pixel, double scale) { return scale * (pixel + Vec2{0.5, 0.5}) - Vec2{0.5, 0.5}; }

std::string id_of(coach::Colour colour, int number) {
  switch (colour) {
    case coach::Colour::cue:
      return "cue";
    case coach::Colour::black:
      return "black";
    case coach::Colour::yellow:
      return "yellow-" + std::to_string(number);
    case coach::Colour::solid:
      return "solid-" + std::to_string(number);
    case coach::Colour::stripe:
      return "stripe-" + std::to_string(number);
    default:
      return "red-" + std::to_string(number);
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
  if (table.id.starts_with("snooker")) {
    return std::unexpected(
        Refusal{.wrong = "is to be read as " + table.id + ", and snooker's colours are not told",
                .mend = "lay the balls on the table by hand"});
  }
  const double longest = std::max(picture.width, picture.height);
  const double scale = std::min(1.0, longest_side / longest);
  const cv::Mat fine = workable(picture, scale);

  std::vector<SeenPoint> shrunk_points;
  for (const SeenPoint& seen : points) {
    shrunk_points.push_back({.point = seen.point,
                             .pixel = shrunk(seen.pixel, scale),
                             .sigma_px = std::max(seen.sigma_px * scale, 0.5)});
  }
  const auto seen = see_table(fine, table, shrunk_points);
  if (!seen) return std::unexpected(seen.error());
  const CameraFit& fit = seen->fit;
  if (const auto size = ball_size(fine, fit.camera, table)) {
    if (auto refusal = wrong_table(*size, table)) {
      // Where nobody marked a corner, the table may have been misread instead.
      if (points.empty()) refusal->mend = "mark the four corners (--corners), or " + refusal->mend;
      return std::unexpected(*std::move(refusal));
    }
  }
  const Cloth cloth = learn_cloth(fine, fit.camera, table);

  Captured captured{.balls = see_balls(fine, cloth, fit, table),
                    .camera = scaled(fit.camera, 1 / scale),
                    .residual_px = fit.residual_px / scale,
                    .ends_known = seen->ends_known};
  captured.camera.width_px = picture.width;
  captured.camera.height_px = picture.height;
  name_balls(captured.balls);
  for (CapturedBall& ball : captured.balls) {
    const Vec3 centre = engine::lift(ball.ball.at, radius_of(table, ball.ball.colour));
    ball.pixel = pixel_of(captured.camera, centre).value_or(Vec2{});
  }
  captured.doubtful = doubtful_of(captured.balls);
  captured.layout.table = table;
  captured.layout.rules =
      table.id.starts_with("american") ? coach::Rules::american_8ball : coach::Rules::international;
  for (const CapturedBall& ball : captured.balls) captured.layout.balls.push_back(ball.ball);
  captured.points.assign(points.begin(), points.end());
  return captured;
}

}  // namespace ahead::capture
