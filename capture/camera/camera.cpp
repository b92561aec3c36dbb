#include "capture/camera/camera.h"

#include <cmath>
#include <numbers>

namespace ahead::capture {
namespace {

Vec2 middle(const Camera& camera) {
  return {(camera.width_px - 1) / 2, (camera.height_px - 1) / 2};
}

/// r from r (1 + k1 r^2), by Newton's steps; the fold, where the slope vanishes, is the limit.
double undistorted(double distorted, double k1) {
  double r = distorted;
  for (int i = 0; i < 12; ++i) {
    const double slope = 1 + 3 * k1 * r * r;
    if (slope < 0.1) return r;
    const double step = (r * (1 + k1 * r * r) - distorted) / slope;
    r -= step;
    if (std::abs(step) < 1e-12) break;
  }
  return r;
}

}  // namespace

Vec3 seen_from(const Camera& camera, Vec3 point) {
  const Vec3 to = point - camera.at;
  return {dot(camera.axes[0], to), dot(camera.axes[1], to), dot(camera.axes[2], to)};
}

std::optional<Vec2> pixel_of_direction(const Camera& camera, Vec3 direction) {
  if (direction.z <= 1e-6) return std::nullopt;
  const Vec2 flat{direction.x / direction.z, direction.y / direction.z};
  const double r2 = dot(flat, flat);
  if (1 + 3 * camera.k1 * r2 < 0.1) return std::nullopt;
  return middle(camera) + camera.focal_px * (1 + camera.k1 * r2) * flat;
}

std::optional<Vec2> pixel_of(const Camera& camera, Vec3 point) {
  return pixel_of_direction(camera, seen_from(camera, point));
}

Vec3 ray_of(const Camera& camera, Vec2 pixel) {
  const Vec2 distorted = (pixel - middle(camera)) / camera.focal_px;
  const double r = norm(distorted);
  const Vec2 flat = r > 0 ? (undistorted(r, camera.k1) / r) * distorted : Vec2{};
  return unit(flat.x * camera.axes[0] + flat.y * camera.axes[1] + camera.axes[2]);
}

std::optional<Vec2> on_plane(const Camera& camera, Vec2 pixel, double height_m) {
  const Vec3 ray = ray_of(camera, pixel);
  const double rise = height_m - camera.at.z;
  if (ray.z * rise <= 0) return std::nullopt;
  return plan(camera.at + (rise / ray.z) * ray);
}

std::vector<Vec2> outline_of(const Camera& camera, Vec3 centre, double radius_m, int count) {
  std::vector<Vec2> outline;
  const Vec3 to = seen_from(camera, centre);
  const double distance = norm(to);
  if (distance <= radius_m) return outline;
  const double sine = radius_m / distance;
  const double cosine = std::sqrt(1 - sine * sine);
  const Vec3 axis = to / distance;
  // Square to the axis: to the right, and down.
  const Vec3 right = unit(Vec3{axis.z, 0, -axis.x});
  const Vec3 down = cross(axis, right);
  outline.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    const double angle = 2 * std::numbers::pi * i / count;
    const auto pixel = pixel_of_direction(
        camera, cosine * axis + sine * (std::cos(angle) * right + std::sin(angle) * down));
    if (!pixel) return {};
    outline.push_back(*pixel);
  }
  return outline;
}

Camera scaled(const Camera& camera, double scale) {
  Camera other = camera;
  other.width_px *= scale;
  other.height_px *= scale;
  other.focal_px *= scale;
  return other;
}

}  // namespace ahead::capture
