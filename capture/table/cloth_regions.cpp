#include "capture/table/cloth_regions.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>

#include <opencv2/imgproc.hpp>

#include "capture/picture/mat.h"

namespace ahead::capture {
namespace {

/// Regions are looked for on small pictures: cloth is large. On the smaller one white lines close
/// sooner, on the larger one thin wood stays.
constexpr std::array small_sides{400, 560};
/// A table fills at least this share of the picture, and its region is as four-cornered as this.
constexpr double least_area = 0.03;
constexpr double least_match = 0.80;
constexpr std::size_t most_regions = 6;

float length(const Colour3& c) { return std::sqrt(c.dot(c)); }

/// How far a pixel of cloth may be from its colour: darker, brighter, and of another hue.
struct Likeness {
  float darkest = 0;
  float brightest = 0;
  float hue = 0;
};
/// Loosely, for cloth unlike the room; then closely, for cloth that the wood resembles.
constexpr std::array<Likeness, 3> likenesses{
    {{0.35F, 1.35F, 0.10F}, {0.40F, 1.30F, 0.05F}, {0.60F, 1.20F, 0.07F}}};
/// Gaps that close, px of the small picture: white lines, but not the wood.
constexpr int bridged_px = 5;

/// Pixels that a cloth of this colour may show, in light and shade.
cv::Mat alike(const cv::Mat& picture, const Colour3& colour, const Likeness& likeness) {
  const auto& [darkest, brightest, hue] = likeness;
  const float square = std::max(colour.dot(colour), 1.0F);
  const float off = hue * std::sqrt(square) + 3;
  cv::Mat mask(picture.size(), CV_8U);
  for (int row = 0; row < picture.rows; ++row) {
    const auto* pixel = picture.ptr<Colour3>(row);
    auto* out = mask.ptr<std::uint8_t>(row);
    for (int column = 0; column < picture.cols; ++column) {
      const float share = pixel[column].dot(colour) / square;
      const bool same = share > darkest && share < brightest &&
                        length(pixel[column] - share * colour) < off * std::max(share, 0.6F);
      out[column] = same ? 255 : 0;
    }
  }
  return mask;
}

std::optional<Vec2> crossing(Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  const Vec2 u = b - a;
  const Vec2 v = d - c;
  const double sine = cross(u, v);
  if (std::abs(sine) < 1e-6 * norm(u) * norm(v)) return std::nullopt;
  return a + (cross(c - a, v) / sine) * u;
}

using Polygon = std::vector<cv::Point2f>;

double area_of(const Polygon& polygon) { return std::abs(cv::contourArea(polygon)); }

struct Side {
  Vec2 from, to;
  std::size_t place = 0;
  bool cut = false;  // no side, but the picture's border
};

/// The side laid through those points of the outline that follow it, away from its ends, where the
/// pockets are.
Side laid_through(const Side& side, const std::vector<cv::Point>& outline) {
  const Vec2 along = unit(side.to - side.from);
  const double length = norm(side.to - side.from);
  std::vector<cv::Point> near;
  for (const cv::Point p : outline) {
    const Vec2 off = Vec2{1.0 * p.x, 1.0 * p.y} - side.from;
    const double share = dot(off, along) / length;
    if (share > 0.1 && share < 0.9 && std::abs(cross(along, off)) < 0.03 * length + 1.5) {
      near.push_back(p);
    }
  }
  if (near.size() < 8) return side;
  cv::Vec4f line;
  cv::fitLine(near, line, cv::DIST_HUBER, 0, 0.01, 0.01);
  const Vec2 on{line[2], line[3]};
  const Vec2 way{line[0], line[1]};
  return {.from = on - length * way, .to = on + length * way, .place = side.place, .cut = side.cut};
}

/// Whether both points lie along one border of the picture, which cuts the table off there.
bool along_border(cv::Point a, cv::Point b, cv::Size size) {
  constexpr int near = 3;
  return std::max(a.x, b.x) < near || std::max(a.y, b.y) < near ||
         std::min(a.x, b.x) >= size.width - near || std::min(a.y, b.y) >= size.height - near;
}

Polygon polygon_of(const Corners& corners) {
  Polygon polygon;
  for (const Vec2 corner : corners) {
    polygon.emplace_back(static_cast<float>(corner.x), static_cast<float>(corner.y));
  }
  return polygon;
}

/// How much of a hull and of what the picture shows of a quadrilateral is common to both.
double match_of(const Polygon& hull, const Corners& corners, cv::Size size) {
  const Polygon quad = polygon_of(corners);
  if (!cv::isContourConvex(quad)) return 0;
  const auto right = static_cast<float>(size.width - 1);
  const auto bottom = static_cast<float>(size.height - 1);
  const Polygon shown{{0, 0}, {right, 0}, {right, bottom}, {0, bottom}};
  Polygon within;
  cv::intersectConvexConvex(quad, shown, within);
  if (within.size() < 3) return 0;
  Polygon common;
  const double shared = cv::intersectConvexConvex(hull, within, common);
  return shared / std::max(area_of(hull) + area_of(within) - shared, 1.0);
}

std::optional<Corners> corners_of(const std::array<Side, 4>& sides, cv::Size size) {
  // A corner may lie beyond the picture, but not by much.
  const double beyond = 0.4 * std::max(size.width, size.height);
  Corners corners;
  for (std::size_t i = 0; i < 4; ++i) {
    const Side& here = sides[i];
    const Side& next = sides[(i + 1) % 4];
    const auto corner = crossing(here.from, here.to, next.from, next.to);
    if (!corner || corner->x < -beyond || corner->y < -beyond || corner->x > size.width + beyond ||
        corner->y > size.height + beyond) {
      return std::nullopt;
    }
    corners[i] = *corner;
  }
  return corners;
}

struct FourSides {
  Corners corners;
  double match = 0;
};

/// Of a hull's longest sides those four that hold it best.
std::optional<FourSides> four_sides(const std::vector<cv::Point>& hull,
                                    const std::vector<cv::Point>& outline, cv::Size size) {
  constexpr std::size_t most_sides = 7;
  constexpr double cut_off = 0.9;
  std::vector<cv::Point> rough;
  cv::approxPolyDP(hull, rough, 0.008 * cv::arcLength(hull, true), true);
  if (rough.size() < 4) return std::nullopt;
  std::vector<Side> sides;
  for (std::size_t i = 0; i < rough.size(); ++i) {
    const cv::Point a = rough[i];
    const cv::Point b = rough[(i + 1) % rough.size()];
    sides.push_back({.from = {1.0 * a.x, 1.0 * a.y},
                     .to = {1.0 * b.x, 1.0 * b.y},
                     .place = i,
                     .cut = along_border(a, b, size)});
  }
  std::ranges::stable_sort(sides, std::ranges::greater{},
                           [](const Side& side) { return norm(side.to - side.from); });
  if (sides.size() > most_sides) sides.resize(most_sides);
  std::ranges::sort(sides, {}, &Side::place);
  for (Side& side : sides) side = laid_through(side, outline);

  const Polygon hull_f(hull.begin(), hull.end());
  std::optional<FourSides> best;
  double most = 0;
  for (std::size_t a = 0; a < sides.size(); ++a) {
    for (std::size_t b = a + 1; b < sides.size(); ++b) {
      for (std::size_t c = b + 1; c < sides.size(); ++c) {
        for (std::size_t d = c + 1; d < sides.size(); ++d) {
          const std::array four{sides[a], sides[b], sides[c], sides[d]};
          const auto corners = corners_of(four, size);
          if (!corners) continue;
          const double match = match_of(hull_f, *corners, size);
          const auto cut = std::ranges::count_if(four, &Side::cut);
          const double weighed = match * std::pow(cut_off, static_cast<double>(cut));
          if (weighed <= most) continue;
          most = weighed;
          best = {.corners = *corners, .match = match};
        }
      }
    }
  }
  return best;
}

std::optional<ClothRegion> region_at(const cv::Mat& small, cv::Point seed, const Likeness& likeness,
                                     double enlarged) {
  const auto& colour = small.at<Colour3>(seed);
  cv::Mat mask = alike(small, colour, likeness);
  // Lines and the gaps beside balls close; bridges to the room break.
  const cv::Mat round = cv::getStructuringElement(cv::MORPH_ELLIPSE, {5, 5});
  cv::morphologyEx(mask, mask, cv::MORPH_CLOSE, cv::Mat::ones(bridged_px, bridged_px, CV_8U));
  cv::morphologyEx(mask, mask, cv::MORPH_OPEN, round);
  if (mask.at<std::uint8_t>(seed) == 0) return std::nullopt;
  cv::floodFill(mask, seed, cv::Scalar(128));
  mask = mask == 128;
  const double share = cv::countNonZero(mask) / static_cast<double>(mask.total());
  if (share < least_area) return std::nullopt;

  std::vector<std::vector<cv::Point>> contours;
  cv::findContours(mask, contours, cv::RETR_EXTERNAL, cv::CHAIN_APPROX_NONE);
  if (contours.empty()) return std::nullopt;
  const auto& contour =
      *std::ranges::max_element(contours, {}, [](const auto& one) { return cv::contourArea(one); });
  std::vector<cv::Point> hull;
  cv::convexHull(contour, hull);
  const auto sides = four_sides(hull, contour, small.size());
  if (!sides) return std::nullopt;
  const Polygon outline(contour.begin(), contour.end());
  const Polygon hull_f(hull.begin(), hull.end());
  const double match =
      sides->match * std::min(1.0, area_of(outline) / std::max(area_of(hull_f), 1.0));
  int at_border = 0;
  for (const cv::Point p : contour) {
    if (p.x <= 1 || p.y <= 1 || p.x >= small.cols - 2 || p.y >= small.rows - 2) ++at_border;
  }
  const double clear = 1 - static_cast<double>(at_border) / static_cast<double>(contour.size());
  if (match < least_match) return std::nullopt;

  ClothRegion region{.score = std::pow(match, 4) * clear * clear * std::sqrt(share)};
  for (std::size_t i = 0; i < 4; ++i) {
    region.corners[i] = enlarged * (sides->corners[i] + Vec2{0.5, 0.5}) - Vec2{0.5, 0.5};
  }
  // Against the clock as seen: the area is negative in a picture whose y runs down.
  double twice = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    twice += cross(region.corners[i], region.corners[(i + 1) % 4]);
  }
  if (twice > 0) std::ranges::reverse(region.corners);
  return region;
}

void add_regions(std::vector<ClothRegion>& regions, const cv::Mat& picture, int small_side) {
  const double enlarged =
      std::max(1.0, static_cast<double>(std::max(picture.cols, picture.rows)) / small_side);
  cv::Mat small;
  cv::resize(picture, small, {}, 1 / enlarged, 1 / enlarged, cv::INTER_AREA);
  cv::GaussianBlur(small, small, {3, 3}, 0.8);

  std::vector<Colour3> tried;
  constexpr int across = 11;
  constexpr int down = 9;
  for (int j = 1; j < down; ++j) {
    for (int i = 1; i < across; ++i) {
      const cv::Point seed(i * small.cols / across, j * small.rows / down);
      const Colour3 colour = small.at<Colour3>(seed);
      const bool known = std::ranges::any_of(tried, [&](const Colour3& other) {
        return length(colour - other) < 0.05F * length(other) + 2;
      });
      if (known) continue;
      tried.push_back(colour);
      for (const Likeness& likeness : likenesses) {
        if (const auto region = region_at(small, seed, likeness, enlarged)) {
          regions.push_back(*region);
        }
      }
    }
  }
}

}  // namespace

std::vector<ClothRegion> cloth_regions(const cv::Mat& picture) {
  std::vector<ClothRegion> regions;
  for (const int side : small_sides) add_regions(regions, picture, side);
  std::ranges::stable_sort(regions, std::ranges::greater{}, &ClothRegion::score);
  std::vector<ClothRegion> distinct;
  for (const ClothRegion& region : regions) {
    const bool again = std::ranges::any_of(distinct, [&](const ClothRegion& other) {
      double worst = 0;
      for (std::size_t i = 0; i < 4; ++i) {
        double nearest = 1e9;
        for (const Vec2 corner : other.corners) {
          nearest = std::min(nearest, norm(corner - region.corners[i]));
        }
        worst = std::max(worst, nearest);
      }
      return worst < 0.015 * std::max(picture.cols, picture.rows);
    });
    if (!again) distinct.push_back(region);
    if (distinct.size() == most_regions) break;
  }
  return distinct;
}

}  // namespace ahead::capture
