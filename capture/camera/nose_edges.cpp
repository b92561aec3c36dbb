#include "capture/camera/nose_edges.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <variant>

#include "capture/picture/mat.h"

namespace ahead::capture {
namespace {

using engine::RailSegment;

/// Jaws are shorter than this.
constexpr double least_nose_m = 0.2;
constexpr double step_px = 0.5;

/// A place along a nose, with the brightness across it.
struct Station {
  Vec3 point;
  Vec2 pixel;
  Vec2 inwards;              // across the line, towards the bed, one pixel
  double share = 0;          // along the nose, -1 to 1
  std::vector<float> slope;  // of brightness, inwards, at every half pixel from -reach to reach
};

Vec3 inwards_of(const RailSegment& nose, const engine::Table& table) {
  const Vec2 middle{table.width_m / 2, table.length_m / 2};
  const Vec2 across = left_of(unit(nose.to - nose.from));
  return engine::lift(dot(across, middle - nose.from) > 0 ? across : -across);
}

/// Brightness, slightly smoothed across: the slope is a difference of means on either side.
std::vector<float> slopes(const cv::Mat& picture, Vec2 pixel, Vec2 inwards, int half) {
  const int extra = 4;
  std::vector<float> bright;
  for (int i = -half - extra; i <= half + extra; ++i) {
    const auto c = sampled<Colour3>(picture, pixel + step_px * i * inwards);
    bright.push_back((c[0] + c[1] + c[2]) / 3);
  }
  std::vector<float> slope;
  for (std::size_t i = extra; i + extra < bright.size(); ++i) {
    // Narrow: what lies under a far nose is a dark line of two or three pixels, and a wide slope
    // would be drawn out of its middle.
    slope.push_back((bright[i + 1] + bright[i + 2] - bright[i - 1] - bright[i - 2]) / 2);
  }
  return slope;
}

std::vector<Station> stations_of(const cv::Mat& picture, const Camera& camera,
                                 const engine::Table& table, const RailSegment& nose, int half) {
  std::vector<Station> stations;
  const Vec3 inwards = inwards_of(nose, table);
  const auto from = pixel_of(camera, engine::lift(nose.from, table.nose_height_m));
  const auto to = pixel_of(camera, engine::lift(nose.to, table.nose_height_m));
  if (!from || !to) return stations;
  const int count = std::clamp(static_cast<int>(norm(*to - *from) / 4), 12, 120);
  for (int i = 0; i < count; ++i) {
    const double share = (i + 0.5) / count;
    const Vec3 point = engine::lift(nose.from + share * (nose.to - nose.from), table.nose_height_m);
    const auto pixel = pixel_of(camera, point);
    const auto along = pixel_of(camera, point + 0.01 * engine::lift(unit(nose.to - nose.from)));
    const auto within = pixel_of(camera, point + 0.01 * inwards);
    if (!pixel || !along || !within || !inside(picture, *pixel, 2)) continue;
    Vec2 across = left_of(unit(*along - *pixel));
    if (dot(across, *within - *pixel) < 0) across = -across;
    stations.push_back({.point = point,
                        .pixel = *pixel,
                        .inwards = across,
                        .share = 2 * share - 1,
                        .slope = slopes(picture, *pixel, across, half)});
  }
  return stations;
}

/// The edge as an offset across the expected nose: a + b s + c (1 - s^2), s from -1 to 1, in
/// pixels.
struct Line {
  double a = 0;
  double b = 0;
  double c = 0;
  double strength = 0;

  [[nodiscard]] double at(double share) const { return a + b * share + c * (1 - share * share); }
};

/// Steps larger than this are no shade of one cloth; a station says no more than that.
constexpr double full_step = 12;

/// Mean over every `stride`-th station.
double strength(const std::vector<Station>& stations, const Line& line, double sign, int half,
                std::size_t stride) {
  double sum = 0;
  for (std::size_t k = 0; k < stations.size(); k += stride) {
    const Station& station = stations[k];
    const double place = line.at(station.share) / step_px + half;
    const auto below = static_cast<std::ptrdiff_t>(std::floor(place));
    if (below < 0 || below + 1 >= static_cast<std::ptrdiff_t>(station.slope.size())) continue;
    const auto i = static_cast<std::size_t>(below);
    const double part = place - static_cast<double>(below);
    const double slope = sign * ((1 - part) * station.slope[i] + part * station.slope[i + 1]);
    sum += std::clamp(slope, -full_step, full_step);
  }
  return sum / std::ceil(static_cast<double>(stations.size()) / static_cast<double>(stride));
}

/// The line that most stations agree with; nearer ones are preferred.
Line best_line(const std::vector<Station>& stations, double reach, int half) {
  Line best;
  const auto consider = [&](Line line, std::size_t stride) {
    // The top of a cushion is lit and what lies under its nose is not: from bright to dark inwards
    // is what is looked for first.
    for (const double sign : {-1.0, 1.0}) {
      const double off = std::hypot(line.a, line.b) / reach;
      line.strength = strength(stations, line, sign, half, stride) * (sign < 0 ? 1.0 : 0.6) *
                      std::exp(-1.2 * off * off);
      if (line.strength > best.strength) best = line;
    }
  };
  // Few stations will do to find the line nearly.
  const std::size_t coarsely = stations.size() >= 30 ? 3 : 1;
  const double coarse = reach / 8;
  for (double a = -reach; a <= reach; a += coarse) {
    for (double b = -reach; b <= reach; b += coarse) {
      if (std::abs(a) + std::abs(b) > 1.3 * reach) continue;
      for (const double c : {-0.3 * reach, 0.0, 0.3 * reach}) {
        consider({.a = a, .b = b, .c = c}, coarsely);
      }
    }
  }
  const Line nearly = best;
  best = {};
  consider(nearly, 1);
  for (double step = coarse / 2; step > 0.05; step /= 2) {
    for (int turn = 0; turn < 2; ++turn) {
      const Line middle = best;
      for (const double a : {-step, 0.0, step}) {
        for (const double b : {-step, 0.0, step}) {
          for (const double c : {-step, 0.0, step}) {
            consider({.a = middle.a + a, .b = middle.b + b, .c = middle.c + c}, 1);
          }
        }
      }
    }
  }
  return best;
}

/// Where, going outwards over the top of a cushion, its cloth ends: half way in colour.
/// What is under a far nose is dark, and no wider than `beyond_px`: there it is not.
std::optional<Vec2> end_of_cloth(const cv::Mat& picture, const Cloth& cloth, Vec2 from, Vec2 to,
                                 double beyond_px) {
  const double length = norm(to - from);
  const Vec2 step = unit(to - from);
  const auto bare = [&](double along) {
    return sampled<float>(cloth.evidence, from + along * step) >= 0.5F;
  };
  for (double along = 0; along < length; along += 0.5) {
    if (!bare(along)) continue;
    if (along < 1.5) return {};
    if (!bare(along + 1.5) || !bare(along + 3) || !bare(along + beyond_px)) continue;
    const auto in = sampled<Colour3>(picture, from + (along - 2.5) * step);
    const auto out = sampled<Colour3>(picture, from + (along + 2.5) * step);
    const Colour3 change = out - in;
    const float square = change.dot(change);
    if (square < 15 * 15) return {};
    float before = 0;
    for (double at = along - 2.5; at <= along + 2.5; at += 0.5) {
      const float part = (sampled<Colour3>(picture, from + at * step) - in).dot(change) / square;
      if (part >= 0.5F && before < 0.5F) {
        return from + (at - 0.5 * static_cast<double>((part - 0.5F) / (part - before))) * step;
      }
      before = part;
    }
    return {};
  }
  return {};
}

}  // namespace

std::vector<SeenEdge> back_edges(const cv::Mat& picture, const Cloth& cloth, const CameraFit& fit,
                                 const engine::Table& table, double from_m) {
  constexpr double furthest_m = 0.1;
  constexpr double beyond_m = 0.025;
  std::vector<SeenEdge> edges;
  for (const engine::Rail& rail : table.rails) {
    const auto* nose = std::get_if<RailSegment>(&rail);
    if (nose == nullptr || norm(nose->to - nose->from) < least_nose_m) continue;
    const Vec3 back = -inwards_of(*nose, table);
    const Vec3 along = engine::lift(unit(nose->to - nose->from));
    constexpr int stations = 60;
    for (int i = 0; i < stations; ++i) {
      const Vec3 point = engine::lift(nose->from + (i + 0.5) / stations * (nose->to - nose->from),
                                      table.nose_height_m);
      const Vec3 rise{0, 0, fit.back.above_m};
      const auto from = pixel_of(fit.camera, point + from_m * back);
      const auto to = pixel_of(fit.camera, point + furthest_m * back + rise);
      if (!from || !to || !inside(picture, *from, 4) || !inside(picture, *to, 4)) continue;
      if (norm(*to - *from) < 6) continue;  // seen too flat
      const double beyond_px = beyond_m / (furthest_m - from_m) * norm(*to - *from);
      if (const auto pixel = end_of_cloth(picture, cloth, *from, *to, beyond_px)) {
        edges.push_back(
            {.point = point, .direction = along, .pixel = *pixel, .sigma_px = 1.5, .back = back});
      }
    }
  }
  return edges;
}

std::vector<SeenEdge> nose_edges(const cv::Mat& picture, const Camera& camera,
                                 const engine::Table& table, double reach_px) {
  constexpr double faintest = 1.2;
  const int half = static_cast<int>(std::ceil(1.6 * reach_px / step_px));
  std::vector<SeenEdge> edges;
  for (const engine::Rail& rail : table.rails) {
    const auto* nose = std::get_if<RailSegment>(&rail);
    if (nose == nullptr || norm(nose->to - nose->from) < least_nose_m) continue;
    const std::vector<Station> stations = stations_of(picture, camera, table, *nose, half);
    if (stations.size() < 8) continue;
    const Line line = best_line(stations, reach_px, half);
    if (line.strength < faintest) continue;
    const Vec3 along = engine::lift(unit(nose->to - nose->from));
    // Neighbouring stations see the same light and the same grain of the picture: a sigma of a
    // pixel each, rather than of the third that a single edge has.
    for (const Station& station : stations) {
      edges.push_back({.point = station.point,
                       .direction = along,
                       .pixel = station.pixel + line.at(station.share) * station.inwards,
                       .sigma_px = 1.0});
    }
  }
  return edges;
}

double noses_seen(const cv::Mat& picture, const Cloth& cloth, const Camera& camera,
                  const engine::Table& table) {
  constexpr double within_px = 1.5;
  constexpr double plain = 3;  // a step that no grain makes
  constexpr double behind_m = 0.02;
  constexpr double before_m = 0.04;
  const int half = static_cast<int>(std::ceil(1.6 * within_px / step_px));
  double sum = 0;
  int count = 0;
  for (const engine::Rail& rail : table.rails) {
    const auto* nose = std::get_if<RailSegment>(&rail);
    if (nose == nullptr || norm(nose->to - nose->from) < least_nose_m) continue;
    const std::vector<Station> stations = stations_of(picture, camera, table, *nose, half);
    if (stations.size() < 8) continue;
    const Vec3 inwards = inwards_of(*nose, table);
    const auto is_cloth = [&](Vec3 point) {
      const auto pixel = pixel_of(camera, point);
      return !pixel || sampled<float>(cloth.evidence, *pixel) < 0.5F;
    };
    const auto between_cloth = std::ranges::count_if(stations, [&](const Station& station) {
      return is_cloth(station.point - behind_m * inwards) &&
             is_cloth(engine::lift(plan(station.point + before_m * inwards)));
    });
    sum += std::min(1.0, best_line(stations, within_px, half).strength / plain) *
           static_cast<double>(between_cloth) / static_cast<double>(stations.size());
    ++count;
  }
  return count > 0 ? sum / count : 0;
}

}  // namespace ahead::capture
