#include "capture/footage/motion.h"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "capture/picture/mat.h"

namespace ahead::capture {
namespace {

constexpr int small_width = 640;

}  // namespace

cv::Mat small_grey(const Picture& frame) {
  cv::Mat grey;
  cv::cvtColor(as_mat(frame), grey, cv::COLOR_BGR2GRAY);
  const double scale = std::min(1.0, 1.0 * small_width / frame.width);
  cv::Mat small;
  cv::resize(grey, small, {}, scale, scale, cv::INTER_AREA);
  small.convertTo(small, CV_32F);
  return small;
}

cv::Mat bed_mask(const Camera& camera, const engine::Table& table, cv::Size small) {
  const double scale = small.width / camera.width_px;
  std::vector<cv::Point> polygon;
  // The bed as high as a ball's top, all round.
  std::vector<cv::Point2f> points;
  for (const double z : {0.0, 2 * table.object_ball.radius_m}) {
    for (const Vec2 at : {Vec2{0, 0}, Vec2{table.width_m, 0}, Vec2{table.width_m, table.length_m},
                          Vec2{0, table.length_m}}) {
      if (const auto pixel = pixel_of(camera, engine::lift(at, z))) {
        points.emplace_back(static_cast<float>(scale * pixel->x),
                            static_cast<float>(scale * pixel->y));
      }
    }
  }
  cv::Mat mask(small, CV_32F, cv::Scalar(0));
  if (points.size() < 3) return mask;
  std::vector<cv::Point2f> hull;
  cv::convexHull(points, hull);
  for (const cv::Point2f& p : hull) polygon.emplace_back(cv::Point(p));
  cv::fillConvexPoly(mask, polygon, cv::Scalar(1));
  return mask;
}

double most_change(const cv::Mat& one, const cv::Mat& other, const cv::Mat& mask) {
  const cv::Mat difference = one - other;
  cv::Mat mean;
  cv::blur(difference, mean, {4, 4});
  mean = cv::abs(mean).mul(mask);
  double most = 0;
  cv::minMaxLoc(mean, nullptr, &most);
  return most;
}

double moment_of_rest(const std::vector<std::pair<double, double>>& changes, double noise,
                      double fallback_s) {
  double n = 0;
  double st = 0;
  double sr = 0;
  double stt = 0;
  double str = 0;
  for (const auto& [t_s, change] : changes) {
    const double over = change - noise;
    if (over < 1 || over > 40) continue;
    const double root = std::sqrt(over);
    n += 1;
    st += t_s;
    sr += root;
    stt += t_s * t_s;
    str += t_s * root;
  }
  const double spread = n * stt - st * st;
  if (n < 3 || spread <= 0) return fallback_s;
  const double slope = (n * str - st * sr) / spread;
  if (slope >= 0) return fallback_s;
  return std::clamp(-(sr - slope * st) / n / slope, fallback_s - 0.2, fallback_s + 0.3);
}

}  // namespace ahead::capture
