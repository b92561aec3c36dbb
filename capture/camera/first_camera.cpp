#include "capture/camera/first_camera.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace ahead::capture {
namespace {

double wider(const Camera& camera) { return std::max(camera.width_px, camera.height_px); }

Vec3 column(const cv::Matx33d& m, int k) { return {m(0, k), m(1, k), m(2, k)}; }

}  // namespace

cv::Matx33d plan_to_picture(std::span<const SeenPoint> points, const Camera& camera) {
  const double scale = wider(camera);
  const Vec2 middle{camera.width_px / 2, camera.height_px / 2};
  cv::Mat rows(static_cast<int>(2 * points.size()), 9, CV_64F, cv::Scalar(0));
  for (int i = 0; i < static_cast<int>(points.size()); ++i) {
    const SeenPoint& seen = points[static_cast<std::size_t>(i)];
    const Vec2 p = (seen.pixel - middle) / scale;
    const std::array<double, 3> at{seen.point.x, seen.point.y, 1};
    for (int k = 0; k < 3; ++k) {
      const double value = at[static_cast<std::size_t>(k)];
      rows.at<double>(2 * i, k) = value;
      rows.at<double>(2 * i, 6 + k) = -p.x * value;
      rows.at<double>(2 * i + 1, 3 + k) = value;
      rows.at<double>(2 * i + 1, 6 + k) = -p.y * value;
    }
  }
  cv::Mat h;
  cv::SVD::solveZ(rows, h);
  cv::Matx33d matrix;
  for (int k = 0; k < 9; ++k) matrix.val[k] = h.at<double>(k);
  return matrix;
}

std::optional<Camera> camera_of_plan(const cv::Matx33d& h, double focal, Camera camera,
                                     double height_m) {
  const auto on_ray = [focal](Vec3 v) { return Vec3{v.x / focal, v.y / focal, v.z}; };
  Vec3 a = on_ray(column(h, 0));
  Vec3 b = on_ray(column(h, 1));
  Vec3 t = on_ray(column(h, 2));
  const double length = std::sqrt(norm(a) * norm(b));
  if (!(length > 0)) return std::nullopt;
  const double sign = t.z < 0 ? -1 : 1;  // the table lies before the camera
  a = (sign / length) * a;
  b = (sign / length) * b;
  t = (sign / length) * t;
  // The nearest right-handed axes: the two directions made square, each turned equally.
  const Vec3 sum = unit(unit(a) + unit(b));
  const Vec3 difference = unit(tangential(unit(a) - unit(b), sum));
  const Vec3 x = unit(sum + difference);
  const Vec3 y = unit(sum - difference);
  const Vec3 z = cross(x, y);
  camera.axes = {Vec3{x.x, y.x, z.x}, Vec3{x.y, y.y, z.y}, Vec3{x.z, y.z, z.z}};
  camera.at = {-dot(x, t), -dot(y, t), -dot(z, t) + height_m};
  camera.focal_px = focal * wider(camera);
  if (camera.at.z <= 0) return std::nullopt;
  return camera;
}

}  // namespace ahead::capture
