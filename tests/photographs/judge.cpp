#include "tests/photographs/judge.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <fstream>
#include <iterator>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "capture/picture/decode.h"
#include "engine/equipment/presets.h"

namespace ahead::photographs {
namespace {

Vec2 point(const nlohmann::json& json) {
  return {json.at(0).get<double>(), json.at(1).get<double>()};
}

constexpr double visible_share = 0.4;
/// A found ball is this true one when it lies nearer than half a ball.
constexpr double same_ball_m = 0.025;

double along(const capture::CapturedBall& ball, Vec2 error, bool major) {
  const double half = (ball.xx + ball.yy) / 2;
  const double root = std::hypot((ball.xx - ball.yy) / 2, ball.xy);
  const double turn = std::atan2(2 * ball.xy, ball.xx - ball.yy) / 2;
  const Vec2 axis = major ? engine::direction(turn) : left_of(engine::direction(turn));
  const double variance = major ? half + root : half - root;
  return dot(error, axis) / std::sqrt(std::max(variance, 1e-12));
}

Tally compared(const capture::Captured& captured, const Truth& truth, const engine::Table& table,
               Tally tally) {
  const auto corners = capture::nose_corners(table);
  double worst = 0;
  std::string offs;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const auto pixel = pixel_of(captured.camera, corners[i]);
    worst = std::max(worst, pixel ? norm(*pixel - truth.corners[i]) : 1e3);
    if (pixel)
      offs += fmt::format(" ({:+.1f},{:+.1f})", pixel->x - truth.corners[i].x,
                          pixel->y - truth.corners[i].y);
  }
  tally.tables = worst < 12 ? 1 : 0;
  tally.remarks.push_back(fmt::format(
      "corner off {:.1f} px, focal {:+.1f} %, k1 {:+.3f}, eye {:.0f} mm{}, residual {:.2f}", worst,
      100 * (captured.camera.focal_px / truth.focal_px - 1), captured.camera.k1 - truth.k1,
      1000 * norm(captured.camera.at - truth.eye), offs, captured.residual_px));
  std::vector<bool> met(truth.balls.size(), false);
  for (const capture::CapturedBall& ball : captured.balls) {
    double nearest = same_ball_m;
    std::size_t which = truth.balls.size();
    for (std::size_t i = 0; i < truth.balls.size(); ++i) {
      const double off = norm(truth.balls[i].at - ball.ball.at);
      if (!met[i] && off < nearest) {
        nearest = off;
        which = i;
      }
    }
    if (which == truth.balls.size()) {
      ++tally.false_balls;
      tally.remarks.push_back(fmt::format("false {} at {:.0f},{:.0f} px {:.0f},{:.0f} conf {:.2f}",
                                          ball.ball.id, 1e3 * ball.ball.at.x, 1e3 * ball.ball.at.y,
                                          ball.pixel.x, ball.pixel.y, ball.confidence));
      continue;
    }
    met[which] = true;
    const TrueBall& real = truth.balls[which];
    if (real.seen < visible_share) continue;
    ++tally.found;
    if (coach::colour_of_id(real.id) == ball.ball.colour) {
      ++tally.right_colour;
    } else {
      tally.remarks.push_back("colour: " + real.id + " taken for " + ball.ball.id);
    }
    const Vec2 error = ball.ball.at - real.at;
    tally.errors_mm.push_back(1e3 * norm(error));
    tally.along_axes.push_back(along(ball, error, true));
    tally.along_axes.push_back(along(ball, error, false));
    if (norm(error) > 0.008) {
      tally.remarks.push_back(
          fmt::format("{} off {:+.1f} {:+.1f} mm (sigma {:.1f}, seen {:.2f}) px {:.0f},{:.0f}",
                      real.id, 1e3 * error.x, 1e3 * error.y, 1e3 * ball.ball.sigma_m, real.seen,
                      ball.pixel.x, ball.pixel.y));
    }
  }
  for (std::size_t i = 0; i < met.size(); ++i) {
    if (!met[i] && truth.balls[i].seen >= visible_share) {
      const auto px = pixel_of(captured.camera, engine::lift(truth.balls[i].at, 0.0254));
      tally.remarks.push_back(fmt::format("missed {} (seen {:.2f}) px {:.0f},{:.0f}",
                                          truth.balls[i].id, truth.balls[i].seen, px ? px->x : 0,
                                          px ? px->y : 0));
    }
  }
  return tally;
}

}  // namespace

std::vector<Truth> read_truth(const std::filesystem::path& folder) {
  std::ifstream file(folder / "truth.json");
  std::vector<Truth> all;
  for (const auto& json : nlohmann::json::parse(file)) {
    Truth truth{
        .file = json.at("file"),
        .table = json.at("table"),
        .focal_px = json.at("focal_px"),
        .k1 = json.at("k1"),
        .eye = {json["eye_mm"][0].get<double>() / 1000, json["eye_mm"][1].get<double>() / 1000,
                json["eye_mm"][2].get<double>() / 1000}};
    for (const auto& corner : json.at("corners")) truth.corners.push_back(point(corner));
    for (const auto& corner : json.at("given")) truth.given.push_back(point(corner));
    for (const auto& ball : json.at("balls")) {
      truth.balls.push_back(
          {.id = ball.at("id"), .at = 1e-3 * point(ball.at("at")), .seen = ball.at("seen")});
    }
    all.push_back(std::move(truth));
  }
  return all;
}

capture::Picture read_photograph(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  const std::vector<char> text{std::istreambuf_iterator<char>(file), {}};
  const std::vector<std::uint8_t> bytes(text.begin(), text.end());
  return capture::decode_picture(bytes).value_or(capture::Picture{});
}

Tally& Tally::operator+=(const Tally& other) {
  photographs += other.photographs;
  refused += other.refused;
  tables += other.tables;
  visible += other.visible;
  found += other.found;
  false_balls += other.false_balls;
  right_colour += other.right_colour;
  errors_mm.insert(errors_mm.end(), other.errors_mm.begin(), other.errors_mm.end());
  along_axes.insert(along_axes.end(), other.along_axes.begin(), other.along_axes.end());
  return *this;
}

Tally judged(const Truth& truth, const std::filesystem::path& folder, Given given) {
  Tally tally{.photographs = 1};
  const engine::Table table = *engine::table_preset(truth.table);
  std::vector<capture::SeenPoint> points;
  const auto corners = capture::nose_corners(table);
  if (given == Given::corners) {
    for (std::size_t i = 0; i < corners.size(); ++i) {
      points.push_back({corners[i], truth.given[i], capture::marked_sigma_px});
    }
  }
  for (const TrueBall& ball : truth.balls) tally.visible += ball.seen >= visible_share ? 1 : 0;
  const auto captured =
      capture::capture_photograph(read_photograph(folder / truth.file), table, points);
  if (!captured) {
    tally.refused = 1;
    tally.remarks.push_back(captured.error().wrong);
    return tally;
  }
  // Without markings nothing tells the ends apart: the table turned by half is right as well.
  Truth turned = truth;
  if (given == Given::nothing && !captured->ends_known) {
    const Vec2 all{table.width_m, table.length_m};
    const auto first = pixel_of(captured->camera, corners[0]);
    if (first && norm(*first - truth.corners[2]) < norm(*first - truth.corners[0])) {
      std::ranges::rotate(turned.corners, turned.corners.begin() + 2);
      for (TrueBall& ball : turned.balls) ball.at = all - ball.at;
      turned.eye = {all.x - truth.eye.x, all.y - truth.eye.y, truth.eye.z};
    }
  }
  return compared(*captured, turned, table, std::move(tally));
}

double quantile(std::vector<double> values, double share) {
  if (values.empty()) return 0;
  std::ranges::sort(values);
  return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1))];
}

double share_within_one(const std::vector<double>& sigmas) {
  if (sigmas.empty()) return 0;
  return static_cast<double>(
             std::ranges::count_if(sigmas, [](double s) { return std::abs(s) < 1; })) /
         static_cast<double>(sigmas.size());
}

std::string line_of(const std::string& name, const Tally& tally) {
  std::string line = fmt::format(
      "{}: table {}/{} ({} refused), found {}/{}, false {}, colour {}/{}, error median {:.1f} 95% "
      "{:.1f} mm, "
      "within "
      "sigma {:.0f} %",
      name, tally.tables, tally.photographs, tally.refused, tally.found, tally.visible,
      tally.false_balls, tally.right_colour, tally.found, quantile(tally.errors_mm, 0.5),
      quantile(tally.errors_mm, 0.95), 100 * share_within_one(tally.along_axes));
  for (const std::string& remark : tally.remarks) line += "\n    " + remark;
  return line;
}

}  // namespace ahead::photographs
