#include "capture/table/read_corners.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include "capture/balls/cloth.h"
#include "capture/camera/nose_edges.h"
#include "capture/picture/mat.h"
#include "capture/table/cross_line.h"

namespace ahead::capture {
namespace {

/// The corners of the cushions' backs.
std::array<Vec3, 4> back_corners(const engine::Table& table, const CushionBack& back) {
  const double d = back.behind_m;
  const double h = table.nose_height_m + back.above_m;
  return {Vec3{-d, -d, h}, Vec3{table.width_m + d, -d, h},
          Vec3{table.width_m + d, table.length_m + d, h}, Vec3{-d, table.length_m + d, h}};
}

/// A line across the bed that is seen so well, and lies no nearer than this to where a baulk line
/// may be, says that the camera is wrong: what is thought of it is then multiplied by `denied`.
constexpr double plain_line = 0.7;
constexpr double at_baulk_m = 0.012;
constexpr double denied = 0.3;

/// How well the crossings of a region's sides are the corners, one sigma on 1280 pixels' width: a
/// lens bows the sides.
constexpr double marked_by_cloth_px = 10;

/// Every fourth edge, which then counts for four: quicker, and enough to come near.
std::vector<SeenEdge> thinned(const std::vector<SeenEdge>& edges) {
  std::vector<SeenEdge> fewer;
  for (std::size_t i = 0; i < edges.size(); i += 4) {
    fewer.push_back(edges[i]);
    fewer.back().sigma_px /= 2;
  }
  return fewer;
}

/// The sides between the corners as edges of a rim.
std::vector<SeenEdge> rim_edges(const engine::Table& table, const Camera& camera,
                                const Corners& corners, std::size_t first, const Rim& rim,
                                double sigma_px) {
  constexpr int places = 12;
  const auto outside = back_corners(table, {.behind_m = rim.behind_m, .above_m = 0.005});
  const Vec3 middle{table.width_m / 2, table.length_m / 2, 0};
  std::vector<SeenEdge> edges;
  for (std::size_t i = 0; i < 4; ++i) {
    const Vec3 from = outside[i];
    const Vec3 to = outside[(i + 1) % 4];
    const Vec3 along = unit(to - from);
    Vec3 out = cross(along, Vec3{0, 0, 1});
    if (dot(out, from - middle) < 0) out = -out;
    const double drop = dot(camera.at - from, out) > 0 ? rim.below_m : 0;
    for (int k = 0; k < places; ++k) {
      const double share = (k + 0.5) / places;
      const Vec2 a = corners[(i + first) % 4];
      const Vec2 b = corners[(i + 1 + first) % 4];
      edges.push_back({.point = from + share * (to - from) - Vec3{0, 0, drop},
                       .direction = along,
                       .pixel = a + share * (b - a),
                       .sigma_px = sigma_px});
    }
  }
  return edges;
}

/// The camera if what it holds for the noses were the cushions' backs: both are long edges, and
/// where cloth and wood look alike the one is easily taken for the other.
CameraFit noses_for_backs(const cv::Mat& picture, const engine::Table& table, const CameraFit& fit,
                          double reach_px) {
  const Vec3 middle{table.width_m / 2, table.length_m / 2, 0};
  std::vector<SeenEdge> edges = nose_edges(picture, fit.camera, table, reach_px);
  for (SeenEdge& edge : edges) {
    const Vec3 across = cross(edge.direction, Vec3{0, 0, 1});
    edge.back = dot(across, edge.point - middle) > 0 ? across : -across;
  }
  return refined(fit, {}, edges);
}

}  // namespace

std::optional<Reading> read_corners(const cv::Mat& picture, const engine::Table& table,
                                    const Corners& corners, std::size_t first,
                                    const std::optional<Rim>& rim) {
  const double unit_px = std::max(picture.cols, picture.rows) / 1280.0;
  CushionBack back;
  if (rim) back.behind_m = rim->behind_m;
  const auto backs = back_corners(table, back);
  std::vector<SeenPoint> points;
  for (std::size_t i = 0; i < 4; ++i) {
    points.push_back({backs[i], corners[(i + first) % 4], marked_by_cloth_px * unit_px});
  }
  auto fit = camera_from_points(points, picture.cols, picture.rows);
  if (!fit) return std::nullopt;
  Cloth cloth;
  if (rim) {
    // How far the wood reaches is a guess: the noses are sought far and wide, and the rim counts
    // for less and less.
    points.clear();
    double sigma_px = 4 * unit_px;
    *fit = refined(*fit, {}, rim_edges(table, fit->camera, corners, first, *rim, sigma_px));
    for (const double reach : {16.0, 12.0, 8.0, 6.0, 4.0}) {
      sigma_px *= 2;
      std::vector<SeenEdge> edges = rim_edges(table, fit->camera, corners, first, *rim, sigma_px);
      const std::vector<SeenEdge> noses =
          thinned(nose_edges(picture, fit->camera, table, reach * unit_px));
      edges.insert(edges.end(), noses.begin(), noses.end());
      *fit = refined(*fit, {}, edges);
    }
    cloth = learn_cloth(picture, fit->camera, table);
  } else {
    cloth = learn_cloth(picture, fit->camera, table);
    // The backs first, sought far and wide: cloth and wood are not mistaken for each other. Then
    // the noses, which only a camera that is nearly right tells from other edges.
    for (const double from_m : {-0.03, -0.01, 0.0}) {
      *fit = refined(*fit, points, back_edges(picture, cloth, *fit, table, from_m));
    }
  }
  for (const double reach : rim ? std::vector{3.0} : std::vector{6.0, 4.0, 3.0}) {
    std::vector<SeenEdge> edges = nose_edges(picture, fit->camera, table, reach * unit_px);
    const std::vector<SeenEdge> more = back_edges(picture, cloth, *fit, table);
    edges.insert(edges.end(), more.begin(), more.end());
    *fit = refined(*fit, points, edges);
  }
  if (!rim) cloth = learn_cloth(picture, fit->camera, table);
  return judged_reading(picture, cloth, table, *fit);
}

Reading read_again(const cv::Mat& picture, const engine::Table& table, const Reading& reading) {
  const double unit_px = std::max(picture.cols, picture.rows) / 1280.0;
  const CrossLine line = brightest_line(picture, reading.fit.camera, table);
  const double baulk_m = table.markings.baulk_line_m;
  const double other_m = table.length_m - baulk_m;
  const double nearer_m =
      std::abs(line.y_m - baulk_m) < std::abs(line.y_m - other_m) ? baulk_m : other_m;
  const bool strange = line.seen > plain_line && std::abs(line.y_m - nearer_m) > at_baulk_m;
  std::vector<SeenEdge> of_line;
  if (strange) {
    of_line = line_edges(reading.fit.camera, table, line.y_m, nearer_m);
    for (SeenEdge& edge : of_line) edge.sigma_px *= unit_px;
  }

  Reading best = reading;
  if (strange) best.score *= denied;
  const auto follow = [&](CameraFit fit, double furthest) {
    const Cloth cloth = learn_cloth(picture, fit.camera, table);
    for (const double reach : {furthest, 6.0, 4.0, 3.0}) {
      std::vector<SeenEdge> edges = nose_edges(picture, fit.camera, table, reach * unit_px);
      const std::vector<SeenEdge> more = back_edges(picture, cloth, fit, table);
      edges.insert(edges.end(), more.begin(), more.end());
      edges.insert(edges.end(), of_line.begin(), of_line.end());
      fit = refined(fit, {}, edges);
    }
    const auto again = judged_reading(picture, learn_cloth(picture, fit.camera, table), table, fit);
    if (again && again->score > best.score) best = *again;
  };
  if (strange) follow(reading.fit, 16);
  follow(noses_for_backs(picture, table, reading.fit, 3 * unit_px), 6);
  return best;
}

}  // namespace ahead::capture
