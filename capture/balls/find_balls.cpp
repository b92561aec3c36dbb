#include "capture/balls/find_balls.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>

#include <opencv2/imgproc.hpp>

#include "capture/picture/mat.h"

namespace ahead::capture {
namespace {

constexpr double grid_m = 0.009;
/// Below these a place is not even looked at closely.
constexpr float least_core = 0.55F;
constexpr double least_score = 0.30;
/// And below this it is no ball.
constexpr double least_quality = 0.25;
constexpr double least_dark_quality = 0.4;
/// Balls overlap by no more than this share of their distance when touching; fits err a little.
constexpr double closest = 0.86;

struct Candidate {
  Vec2 at;
  double score = 0;
};

/// What the search knows: the picture, and which pixels are explained by balls already found.
struct Search {
  const cv::Mat& picture;
  const Cloth& cloth;
  const Camera& camera;
  const engine::Table& table;
  double radius_m = 0;
  cv::Mat explained;  // CV_8U
};

bool is_explained(const Search& search, Vec2 at) {
  const int x = static_cast<int>(std::lround(at.x));
  const int y = static_cast<int>(std::lround(at.y));
  if (x < 0 || y < 0 || x >= search.explained.cols || y >= search.explained.rows) return true;
  return search.explained.at<std::uint8_t>(y, x) != 0;
}

/// Whether a ball at this place would look like the picture, quickly: 0 to 1.
double score_of(const Search& search, Vec2 at) {
  constexpr int spokes = 20;
  const Vec3 centre = engine::lift(at, search.radius_m);
  const auto middle = pixel_of(search.camera, centre);
  if (!middle || !inside(search.picture, *middle, 2)) return 0;
  if (sampled<float>(search.cloth.evidence, *middle) < least_core &&
      !is_explained(search, *middle)) {
    // The middle may be a highlight of the cloth's own colour: ask a little aside as well.
    const double some = sampled<float>(search.cloth.evidence, *middle + Vec2{3, 3});
    if (some < least_core) return 0;
  }
  const std::vector<Vec2> outline = outline_of(search.camera, centre, search.radius_m, spokes);
  if (outline.empty()) return 0;

  double filled = 0;
  double fill_of = 0;
  double edges = 0;
  double edges_of = 0;
  for (const Vec2 rim : outline) {
    const Vec2 spoke = rim - *middle;
    for (const double share : {0.3, 0.6, 0.85}) {
      const Vec2 place = *middle + share * spoke;
      if (is_explained(search, place)) continue;
      const double weight = share;
      filled += weight * sampled<float>(search.cloth.evidence, place);
      fill_of += weight;
    }
    const double length = norm(spoke);
    const double margin = std::max(1.5, 0.18 * length) / length;
    const Vec2 in = *middle + (1 - margin) * spoke;
    const Vec2 out = *middle + (1 + margin) * spoke;
    if (is_explained(search, in)) continue;
    edges_of += 1;
    const double change =
        sampled<float>(search.cloth.evidence, in) - sampled<float>(search.cloth.evidence, out);
    const Colour3 step =
        sampled<Colour3>(search.picture, in) - sampled<Colour3>(search.picture, out);
    const double contrast = std::min(1.0, std::sqrt(static_cast<double>(step.dot(step))) / 60);
    edges += std::max(change, 0.6 * contrast);
  }
  if (fill_of < 6 || edges_of < spokes / 5.0) return 0;
  const double fill = filled / fill_of;
  return fill * fill * std::max(0.0, edges / edges_of);
}

bool may_lie(const engine::Table& table, Vec2 at, double radius_m) {
  const double slack = 0.012;
  if (at.x < radius_m - slack || at.y < radius_m - slack ||
      at.x > table.width_m - radius_m + slack || at.y > table.length_m - radius_m + slack) {
    return false;
  }
  return std::ranges::none_of(table.pockets, [&](const engine::Pocket& pocket) {
    return norm(at - pocket.centre) < pocket.fall_radius_m + 0.2 * radius_m;
  });
}

/// Places whose score is the best round about, best first.
std::vector<Candidate> candidates(const Search& search) {
  const engine::Table& table = search.table;
  const int columns = static_cast<int>(table.width_m / grid_m) + 1;
  const int rows = static_cast<int>(table.length_m / grid_m) + 1;
  cv::Mat scores(rows, columns, CV_32F, cv::Scalar(0));
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      const Vec2 at{column * grid_m, row * grid_m};
      if (!may_lie(table, at, search.radius_m)) continue;
      scores.at<float>(row, column) = static_cast<float>(score_of(search, at));
    }
  }
  cv::Mat peaks;
  cv::dilate(scores, peaks, cv::Mat::ones(3, 3, CV_8U));
  std::vector<Candidate> found;
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      const float score = scores.at<float>(row, column);
      if (score < least_score || score < peaks.at<float>(row, column)) continue;
      found.push_back({.at = {column * grid_m, row * grid_m}, .score = score});
    }
  }
  std::ranges::stable_sort(found, std::ranges::greater{}, &Candidate::score);
  return found;
}

std::vector<Sphere> spheres(const std::vector<FoundBall>& balls, const FoundBall* but = nullptr) {
  std::vector<Sphere> all;
  for (const FoundBall& ball : balls) {
    if (&ball != but) all.push_back({.at = ball.fit.at, .radius_m = ball.radius_m});
  }
  return all;
}

void explain(cv::Mat& explained, const Camera& camera, const FoundBall& ball) {
  // A pixel wider: the soft edge of a ball is its own.
  const std::vector<Vec2> outline =
      outline_of(camera, engine::lift(ball.fit.at, ball.radius_m),
                 ball.radius_m * (1 + 0.8 / std::max(ball.fit.apparent_px, 3.0)), 40);
  std::vector<cv::Point> polygon;
  for (const Vec2 at : outline) {
    polygon.emplace_back(static_cast<int>(std::lround(at.x)), static_cast<int>(std::lround(at.y)));
  }
  if (!polygon.empty()) cv::fillConvexPoly(explained, polygon, cv::Scalar(255));
}

/// Share of what nothing hides that is no cloth.
double fill_of(const Search& search, Vec2 at, double radius_m, std::span<const Sphere> others) {
  const double away = norm(engine::lift(at, radius_m) - search.camera.at);
  std::vector<std::pair<Vec2, double>> before;  // middle and half-width of the balls in front
  for (const Sphere& other : others) {
    const Vec3 centre = engine::lift(other.at, other.radius_m);
    const double distance = norm(centre - search.camera.at);
    const auto pixel = pixel_of(search.camera, centre);
    if (distance < away && pixel) {
      before.emplace_back(*pixel, search.camera.focal_px * other.radius_m / distance + 1);
    }
  }
  const auto middle = pixel_of(search.camera, engine::lift(at, radius_m));
  if (!middle) return 0;
  double sum = 0;
  double count = 0;
  for (const Vec2 rim : outline_of(search.camera, engine::lift(at, radius_m), radius_m, 24)) {
    for (const double share : {0.15, 0.4, 0.6, 0.75, 0.88}) {
      const Vec2 place = *middle + share * (rim - *middle);
      if (std::ranges::any_of(
              before, [&](const auto& ball) { return norm(place - ball.first) < ball.second; })) {
        continue;
      }
      sum += share * sampled<float>(search.cloth.evidence, place);
      count += share;
    }
  }
  return count > 0 ? sum / count : 0;
}

/// Share of the places just outside its outline that lie over the bed and are neither cloth nor
/// another ball: around a hand or a cue there are many.
double crowded(const Search& search, Vec2 at, double radius_m, std::span<const Sphere> others) {
  const Vec3 centre = engine::lift(at, radius_m);
  constexpr int places = 24;
  int strange = 0;
  for (const Vec2 pixel : outline_of(search.camera, centre, 1.3 * radius_m, places)) {
    if (!inside(search.picture, pixel)) continue;
    if (sampled<float>(search.cloth.evidence, pixel) < 0.5F) continue;
    const auto bed = on_plane(search.camera, pixel, radius_m);
    if (!bed || bed->x < radius_m || bed->y < radius_m ||
        bed->x > search.table.width_m - radius_m || bed->y > search.table.length_m - radius_m) {
      continue;  // over a cushion, a pocket or the room
    }
    const Vec3 ray = ray_of(search.camera, pixel);
    const bool of_a_ball = std::ranges::any_of(others, [&](const Sphere& other) {
      const Vec3 to = engine::lift(other.at, other.radius_m) - search.camera.at;
      return norm(to - dot(to, ray) * ray) < 1.12 * other.radius_m;
    });
    strange += of_a_ball ? 0 : 1;
  }
  return static_cast<double>(strange) / places;
}

void judge(const Search& search, FoundBall& ball, std::span<const Sphere> others) {
  ball.fill = fill_of(search, ball.fit.at, ball.radius_m, others);
  const double filled = std::clamp((ball.fill - 0.5) / 0.4, 0.0, 1.0);
  const double edged = std::clamp((ball.fit.supported - 0.5) / 0.4, 0.0, 1.0);
  const double whole = std::clamp(ball.fit.seen / 0.5, 0.3, 1.0);
  const double soft = ball.fit.rms_px / (0.04 * ball.fit.apparent_px + 0.3);
  const double smooth = 1 / (1 + soft * soft);
  const double alone =
      std::clamp(1.25 - 1.6 * crowded(search, ball.fit.at, ball.radius_m, others), 0.0, 1.0);
  ball.quality = filled * edged * alone * std::sqrt(whole * smooth);
}

bool clear_of(const std::vector<FoundBall>& balls, const FoundBall& one) {
  return std::ranges::none_of(balls, [&](const FoundBall& other) {
    return &other != &one &&
           norm(other.fit.at - one.fit.at) < closest * (other.radius_m + one.radius_m);
  });
}

/// One look at the bed: adds what it finds that is at least so good. Whether it found anything.
bool look(const Search& search, std::vector<FoundBall>& balls, double least) {
  bool found = false;
  for (const Candidate& candidate : candidates(search)) {
    const std::vector<Sphere> others = spheres(balls);
    const auto fit = fit_outline(search.picture, search.cloth, search.camera,
                                 {.at = candidate.at, .radius_m = search.radius_m}, others);
    if (!fit || !may_lie(search.table, fit->at, search.radius_m)) continue;
    FoundBall ball{.fit = *fit, .radius_m = search.radius_m};
    judge(search, ball, others);
    if (ball.quality < least || !clear_of(balls, ball)) continue;
    balls.push_back(ball);
    found = true;
  }
  return found;
}

/// All places again, now that it is known which ball stands before which.
void settle(const Search& search, std::vector<FoundBall>& balls) {
  for (int round = 0; round < 2; ++round) {
    for (FoundBall& ball : balls) {
      const std::vector<Sphere> others = spheres(balls, &ball);
      const auto fit = fit_outline(search.picture, search.cloth, search.camera,
                                   {.at = ball.fit.at, .radius_m = ball.radius_m}, others);
      if (fit) ball.fit = *fit;
      judge(search, ball, others);
    }
  }
  std::ranges::stable_sort(balls, std::ranges::greater{}, &FoundBall::quality);
  std::vector<FoundBall> kept;
  for (const FoundBall& ball : balls) {
    if (ball.quality >= least_quality && clear_of(kept, ball)) kept.push_back(ball);
  }
  balls = std::move(kept);
}

}  // namespace

std::vector<FoundBall> find_balls(const cv::Mat& picture, const Cloth& cloth, const Camera& camera,
                                  const engine::Table& table) {
  Search search{.picture = picture,
                .cloth = cloth,
                .camera = camera,
                .table = table,
                .radius_m = table.object_ball.radius_m,
                .explained = cv::Mat(picture.size(), CV_8U, cv::Scalar(0))};
  std::vector<FoundBall> balls;
  constexpr int looks = 3;
  for (int i = 0; i < looks; ++i) {
    if (!look(search, balls, least_quality)) break;
    settle(search, balls);
    search.explained.setTo(0);
    for (const FoundBall& ball : balls) explain(search.explained, camera, ball);
  }
  // Once more for a black ball on dark cloth, which differs from shade by its outline alone: that
  // has to be all but perfect.
  Cloth shades = cloth;
  shades.evidence = cloth.with_shades;
  const Search dark{.picture = picture,
                    .cloth = shades,
                    .camera = camera,
                    .table = table,
                    .radius_m = search.radius_m,
                    .explained = search.explained};
  look(dark, balls, least_dark_quality);
  return balls;
}

}  // namespace ahead::capture
