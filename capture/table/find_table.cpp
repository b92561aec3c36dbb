#include "capture/table/find_table.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

#include <opencv2/imgproc.hpp>

#include "capture/balls/cloth.h"
#include "capture/camera/nose_edges.h"
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

using Corners = std::array<Vec2, 4>;

struct Region {
  Corners corners;  // of the picture in full size, against the clock as seen
  double score = 0;
};

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

double area_of(const std::vector<cv::Point2f>& polygon) {
  return std::abs(cv::contourArea(polygon));
}

struct Side {
  Vec2 from, to;
  std::size_t place = 0;
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
  return {.from = on - length * way, .to = on + length * way, .place = side.place};
}

/// The four longest sides of a hull, and where they cross.
std::optional<Corners> four_sides(const std::vector<cv::Point>& hull,
                                  const std::vector<cv::Point>& outline) {
  std::vector<cv::Point> rough;
  cv::approxPolyDP(hull, rough, 0.008 * cv::arcLength(hull, true), true);
  if (rough.size() < 4) return std::nullopt;
  std::vector<Side> sides;
  for (std::size_t i = 0; i < rough.size(); ++i) {
    const cv::Point a = rough[i];
    const cv::Point b = rough[(i + 1) % rough.size()];
    sides.push_back({.from = {1.0 * a.x, 1.0 * a.y}, .to = {1.0 * b.x, 1.0 * b.y}, .place = i});
  }
  std::ranges::stable_sort(sides, std::ranges::greater{},
                           [](const Side& side) { return norm(side.to - side.from); });
  sides.resize(4);
  std::ranges::sort(sides, {}, &Side::place);
  for (Side& side : sides) side = laid_through(side, outline);
  Corners corners;
  for (std::size_t i = 0; i < 4; ++i) {
    const Side& here = sides[i];
    const Side& next = sides[(i + 1) % 4];
    const auto corner = crossing(here.from, here.to, next.from, next.to);
    if (!corner) return std::nullopt;
    corners[i] = *corner;
  }
  return corners;
}

std::optional<Region> region_at(const cv::Mat& small, cv::Point seed, const Likeness& likeness,
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
  const auto corners = four_sides(hull, contour);
  if (!corners) return std::nullopt;

  std::vector<cv::Point2f> quad;
  for (const Vec2 corner : *corners) {
    quad.emplace_back(static_cast<float>(corner.x), static_cast<float>(corner.y));
  }
  if (!cv::isContourConvex(quad)) return std::nullopt;
  const std::vector<cv::Point2f> outline(contour.begin(), contour.end());
  const std::vector<cv::Point2f> hull_f(hull.begin(), hull.end());
  std::vector<cv::Point2f> common;
  const float shared = cv::intersectConvexConvex(hull_f, quad, common);
  const double match = shared / std::max(area_of(hull_f) + area_of(quad) - shared, 1.0) *
                       std::min(1.0, area_of(outline) / std::max(area_of(hull_f), 1.0));
  int at_border = 0;
  for (const cv::Point p : contour) {
    if (p.x <= 1 || p.y <= 1 || p.x >= small.cols - 2 || p.y >= small.rows - 2) ++at_border;
  }
  const double clear = 1 - static_cast<double>(at_border) / static_cast<double>(contour.size());
  if (match < least_match) return std::nullopt;

  Region region{.score = std::pow(match, 4) * clear * clear * std::sqrt(share)};
  for (std::size_t i = 0; i < 4; ++i) {
    region.corners[i] = enlarged * ((*corners)[i] + Vec2{0.5, 0.5}) - Vec2{0.5, 0.5};
  }
  // Against the clock as seen: the area is negative in a picture whose y runs down.
  double twice = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    twice += cross(region.corners[i], region.corners[(i + 1) % 4]);
  }
  if (twice > 0) std::ranges::reverse(region.corners);
  return region;
}

void add_regions(std::vector<Region>& regions, const cv::Mat& picture, int small_side) {
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

std::vector<Region> regions_of(const cv::Mat& picture) {
  std::vector<Region> regions;
  for (const int side : small_sides) add_regions(regions, picture, side);
  std::ranges::stable_sort(regions, std::ranges::greater{}, &Region::score);
  std::vector<Region> distinct;
  for (const Region& region : regions) {
    const bool again = std::ranges::any_of(distinct, [&](const Region& other) {
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

/// The corners of the cushions' backs.
std::array<Vec3, 4> back_corners(const engine::Table& table, const CushionBack& back) {
  const double d = back.behind_m;
  const double h = table.nose_height_m + back.above_m;
  return {Vec3{-d, -d, h}, Vec3{table.width_m + d, -d, h},
          Vec3{table.width_m + d, table.length_m + d, h}, Vec3{-d, table.length_m + d, h}};
}

/// How many of the six pockets look like none of the cloth: 0 to 1.
double pockets_seen(const Cloth& cloth, const Camera& camera, const engine::Table& table) {
  double sum = 0;
  for (const engine::Pocket& pocket : table.pockets) {
    double dark = 0;
    double count = 0;
    for (int i = 0; i < 8; ++i) {
      const Vec2 at = pocket.centre + 0.6 * pocket.fall_radius_m * engine::direction(i * 0.7854);
      const auto pixel = pixel_of(camera, engine::lift(at, 0));
      if (!pixel || !inside(cloth.evidence, *pixel)) continue;
      dark += sampled<float>(cloth.with_shades, *pixel);
      count += 1;
    }
    sum += count > 0 ? dark / count : 0.3;
  }
  return sum / static_cast<double>(table.pockets.size());
}

/// How bright a line stands out across the bed at this height: share of places where it does.
double line_seen(const cv::Mat& picture, const Camera& camera, const engine::Table& table,
                 double y_m) {
  int seen = 0;
  int count = 0;
  constexpr double rim_m = 0.06;
  constexpr double step_m = 0.012;
  const int places = static_cast<int>((table.width_m - 2 * rim_m) / step_m);
  for (int i = 0; i < places; ++i) {
    const double x = rim_m + i * step_m;
    const auto on = pixel_of(camera, {x, y_m, 0});
    const auto below = pixel_of(camera, {x, y_m - 0.014, 0});
    const auto above = pixel_of(camera, {x, y_m + 0.014, 0});
    if (!on || !below || !above || !inside(picture, *on, 3)) continue;
    const auto bright = [&](Vec2 at) {
      const auto c = sampled<Colour3>(picture, at);
      return c[0] + c[1] + c[2];
    };
    // The line is thin and the camera a little off: the brightest place near it.
    float best = 0;
    for (int k = -4; k <= 4; ++k) {
      const auto near = pixel_of(camera, {x, y_m + 0.0015 * k, 0});
      if (near) best = std::max(best, bright(*near));
    }
    ++count;
    if (best > 1.06F * std::max(bright(*below), bright(*above)) + 12) ++seen;
  }
  return count > 0 ? static_cast<double>(seen) / count : 0;
}

/// How well the crossings of a region's sides are the corners, one sigma on 1280 pixels' width: a
/// lens bows the sides.
constexpr double marked_by_cloth_px = 10;

struct Reading {
  CameraFit fit;
  double score = 0;
  double baulk = 0;  // how much the markings say for this way round
};

std::optional<Reading> read_corners(const cv::Mat& picture, const engine::Table& table,
                                    const Corners& corners, std::size_t first) {
  const double unit_px = std::max(picture.cols, picture.rows) / 1280.0;
  const auto backs = back_corners(table, CushionBack{});
  std::vector<SeenPoint> points;
  for (std::size_t i = 0; i < 4; ++i) {
    points.push_back({backs[i], corners[(i + first) % 4], marked_by_cloth_px * unit_px});
  }
  auto fit = camera_from_points(points, picture.cols, picture.rows);
  if (!fit) return std::nullopt;
  const Cloth cloth = learn_cloth(picture, fit->camera, table);
  // The backs first, sought far and wide: cloth and wood are not mistaken for each other. Then the
  // noses, which only a camera that is nearly right tells from other edges.
  for (const double from_m : {-0.03, -0.01, 0.0}) {
    *fit = refined(*fit, points, back_edges(picture, cloth, *fit, table, from_m));
  }
  for (const double reach : {6.0, 4.0}) {
    std::vector<SeenEdge> edges = nose_edges(picture, fit->camera, table, reach * unit_px);
    const std::vector<SeenEdge> more = back_edges(picture, cloth, *fit, table);
    edges.insert(edges.end(), more.begin(), more.end());
    *fit = refined(*fit, points, edges);
  }
  if (fit->camera.at.z <= 0) return std::nullopt;
  const double pockets = pockets_seen(cloth, fit->camera, table);
  const double residual = fit->residual_px / unit_px;
  // A lens that nobody has speaks against it.
  const double odd_focal =
      std::log(fit->camera.focal_px / (0.9 * std::max(picture.cols, picture.rows))) / 0.6;
  const double odd_bend = fit->camera.k1 / 0.2;
  const double usual = std::exp(-0.5 * (odd_focal * odd_focal + odd_bend * odd_bend));
  return Reading{.fit = *fit,
                 .score = pockets * usual / (1 + 0.2 * residual),
                 .baulk = line_seen(picture, fit->camera, table, table.markings.baulk_line_m) -
                          line_seen(picture, fit->camera, table,
                                    table.length_m - table.markings.baulk_line_m)};
}

}  // namespace

std::expected<FoundTable, Refusal> find_table(const cv::Mat& picture, const engine::Table& table) {
  std::optional<Reading> best;
  for (const Region& region : regions_of(picture)) {
    // Two of the four ways round are told apart by the table's shape and its pockets ...
    for (const std::size_t first : {0U, 1U}) {
      const auto reading = read_corners(picture, table, region.corners, first);
      if (!reading) continue;
      const double weighed = reading->score * (0.6 + 0.4 * std::min(1.0, region.score * 2));
      if (best && best->score >= weighed) continue;
      best = reading;
      best->score = weighed;
    }
  }
  constexpr double least_score = 0.3;
  if (!best || best->score < least_score) {
    return std::unexpected(
        Refusal{.wrong = "no table is found in it",
                .mend = "mark the four corners (--corners), or choose a picture with all of them"});
  }
  // ... and the other two by the baulk line; failing that, by which end is nearer.
  const auto turned = [&](const Camera& camera) {
    Camera other = camera;
    for (Vec3& axis : other.axes) axis = {-axis.x, -axis.y, axis.z};
    other.at = {table.width_m - camera.at.x, table.length_m - camera.at.y, camera.at.z};
    return other;
  };
  constexpr double telling = 0.25;
  const bool known = std::abs(best->baulk) > telling;
  const bool wrong_way = known ? best->baulk < 0 : best->fit.camera.at.y > table.length_m / 2;
  FoundTable found{.fit = best->fit, .ends_known = known};
  if (wrong_way) {
    // The covariance turns with it: places change their sign, turns about the camera's own axes and
    // the lens do not.
    found.fit.camera = turned(found.fit.camera);
    for (std::size_t a = 0; a < camera_unknowns; ++a) {
      for (std::size_t b = 0; b < camera_unknowns; ++b) {
        const bool flips_a = a == 5 || a == 6;
        const bool flips_b = b == 5 || b == 6;
        if (flips_a != flips_b) found.fit.covariance[a][b] = -found.fit.covariance[a][b];
      }
    }
  }
  return found;
}

}  // namespace ahead::capture
