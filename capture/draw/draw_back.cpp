#include "capture/draw/draw_back.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include <opencv2/imgproc.hpp>

#include "capture/picture/mat.h"

namespace ahead::capture {
namespace {

/// OpenCV draws with coordinates in sixteenths of a pixel.
constexpr int shift = 4;

std::vector<cv::Point> polygon_of(const Camera& camera, const std::vector<Vec2>& piece) {
  std::vector<cv::Point> polygon;
  for (const Vec2 corner : piece) {
    const auto pixel = pixel_of(camera, engine::lift(corner));
    if (!pixel || std::abs(pixel->x) > 1e5 || std::abs(pixel->y) > 1e5) return {};
    polygon.emplace_back(static_cast<int>(std::lround(pixel->x * (1 << shift))),
                         static_cast<int>(std::lround(pixel->y * (1 << shift))));
  }
  return polygon;
}

cv::Mat cover_of(const Camera& camera, const BedMark& mark, cv::Size size) {
  cv::Mat cover(size, CV_8U, cv::Scalar(0));
  for (const auto& piece : mark.pieces) {
    const std::vector<cv::Point> polygon = polygon_of(camera, piece);
    if (!polygon.empty()) {
      cv::fillConvexPoly(cover, polygon, cv::Scalar(255), cv::LINE_AA, shift);
    }
  }
  return cover;
}

cv::Mat hidden_by(const Camera& camera, std::span<const Standing> balls, cv::Size size) {
  cv::Mat hidden(size, CV_8U, cv::Scalar(0));
  for (const Standing& ball : balls) {
    std::vector<cv::Point> polygon;
    for (const Vec2 at :
         outline_of(camera, engine::lift(ball.at, ball.radius_m), ball.radius_m, 64)) {
      polygon.emplace_back(static_cast<int>(std::lround(at.x * (1 << shift))),
                           static_cast<int>(std::lround(at.y * (1 << shift))));
    }
    if (!polygon.empty()) {
      cv::fillConvexPoly(hidden, polygon, cv::Scalar(255), cv::LINE_AA, shift);
    }
  }
  return hidden;
}

}  // namespace

std::vector<std::vector<Vec2>> line_pieces(std::span<const Vec2> points, double width_m) {
  constexpr double longest_m = 0.01;
  std::vector<std::vector<Vec2>> pieces;
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const Vec2 way = points[i + 1] - points[i];
    const double length = norm(way);
    if (length == 0) continue;
    const Vec2 side = width_m / 2 * left_of(way / length);
    const int count = std::max(1, static_cast<int>(std::ceil(length / longest_m)));
    for (int k = 0; k < count; ++k) {
      const Vec2 from = points[i] + (1.0 * k / count) * way;
      const Vec2 to = points[i] + (1.0 * (k + 1) / count) * way;
      pieces.push_back({from + side, to + side, to - side, from - side});
    }
  }
  return pieces;
}

Overlay overlay_of(const Camera& camera, std::span<const BedMark> marks,
                   std::span<const Standing> balls) {
  const cv::Size size(static_cast<int>(camera.width_px), static_cast<int>(camera.height_px));
  Overlay overlay{.colour = blank_picture(size.width, size.height)};
  overlay.cover.assign(size.area(), 0);
  for (const BedMark& mark : marks) {
    const cv::Mat cover = cover_of(camera, mark, size);
    std::uint8_t* colour = overlay.colour.bgr.data();
    for (std::size_t i = 0; i < overlay.cover.size(); ++i, colour += 3) {
      const double over = mark.opacity * cover.data[i] / 255;
      if (over == 0) continue;
      // One see-through layer above another (Porter and Duff's "over").
      const double under = overlay.cover[i] / 255.0 * (1 - over);
      const double both = over + under;
      for (std::size_t c = 0; c < 3; ++c) {
        colour[c] =
            static_cast<std::uint8_t>(std::lround((over * mark.bgr[c] + under * colour[c]) / both));
      }
      overlay.cover[i] = static_cast<std::uint8_t>(std::lround(255 * both));
    }
  }
  const cv::Mat hidden = hidden_by(camera, balls, size);
  for (std::size_t i = 0; i < overlay.cover.size(); ++i) {
    overlay.cover[i] = static_cast<std::uint8_t>(overlay.cover[i] * (255 - hidden.data[i]) / 255);
  }
  return overlay;
}

Picture laid_over(Picture photograph, const Overlay& overlay) {
  for (std::size_t i = 0; i < overlay.cover.size(); ++i) {
    const int cover = overlay.cover[i];
    if (cover == 0) continue;
    for (std::size_t c = 3 * i; c < 3 * i + 3; ++c) {
      photograph.bgr[c] = static_cast<std::uint8_t>(
          (cover * overlay.colour.bgr[c] + (255 - cover) * photograph.bgr[c] + 127) / 255);
    }
  }
  return photograph;
}

Picture plan_view(const Picture& photograph, const Camera& camera, const engine::Table& table,
                  double px_per_m, double rim_m) {
  const int width = static_cast<int>(std::lround((table.width_m + 2 * rim_m) * px_per_m));
  const int height = static_cast<int>(std::lround((table.length_m + 2 * rim_m) * px_per_m));
  cv::Mat x(height, width, CV_32F, cv::Scalar(-1));
  cv::Mat y(height, width, CV_32F, cv::Scalar(-1));
  for (int row = 0; row < height; ++row) {
    for (int column = 0; column < width; ++column) {
      const Vec2 at{(column + 0.5) / px_per_m - rim_m,
                    table.length_m + rim_m - (row + 0.5) / px_per_m};
      if (const auto pixel = pixel_of(camera, engine::lift(at))) {
        x.at<float>(row, column) = static_cast<float>(pixel->x);
        y.at<float>(row, column) = static_cast<float>(pixel->y);
      }
    }
  }
  Picture view = blank_picture(width, height);
  cv::Mat out = as_mat(view);
  cv::remap(as_mat(photograph), out, x, y, cv::INTER_LINEAR, cv::BORDER_CONSTANT);
  return view;
}

}  // namespace ahead::capture
