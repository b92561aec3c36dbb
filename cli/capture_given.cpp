#include "cli/capture_given.h"

#include <charconv>
#include <cmath>
#include <string_view>

#include "capture/capture.h"
#include "capture/known_points.h"
#include "formats/input_error.h"
#include "formats/plan.h"
#include "formats/text_file.h"

namespace ahead::cli {
namespace {

std::optional<engine::Vec2> pixel_of_text(std::string_view text) {
  engine::Vec2 pixel;
  const auto comma = text.find(',');
  if (comma == std::string_view::npos) return std::nullopt;
  const auto number = [](std::string_view part, double& value) {
    const auto [end, error] = std::from_chars(part.data(), part.data() + part.size(), value);
    return error == std::errc{} && end == part.data() + part.size() && std::abs(value) < 1e5;
  };
  if (!number(text.substr(0, comma), pixel.x) || !number(text.substr(comma + 1), pixel.y)) {
    return std::nullopt;
  }
  return pixel;
}

}  // namespace

Given<std::vector<capture::SeenPoint>> given_points(const CaptureOptions& options,
                                                    const engine::Table& table) {
  std::vector<capture::SeenPoint> points;
  const auto corners = capture::nose_corners(table);
  for (std::size_t i = 0; i < options.corners.size(); ++i) {
    const auto pixel = pixel_of_text(options.corners[i]);
    if (!pixel) return std::unexpected(formats::bad_point("--corners", options.corners[i]));
    points.push_back({.point = corners[i], .pixel = *pixel, .sigma_px = capture::marked_sigma_px});
  }
  for (const std::string& text : options.points) {
    const auto equals = text.find('=');
    const auto point = equals == std::string::npos
                           ? std::nullopt
                           : capture::known_point(table, text.substr(0, equals));
    const auto pixel =
        point ? pixel_of_text(std::string_view(text).substr(equals + 1)) : std::nullopt;
    if (!pixel) return std::unexpected(formats::bad_point("--pockets", text));
    points.push_back({.point = *point, .pixel = *pixel, .sigma_px = capture::marked_sigma_px});
  }
  return points;
}

Given<std::optional<coach::PlannedShot>> given_shot(const CaptureOptions& options) {
  if (!options.plan) return std::nullopt;
  const auto text = formats::read_file(*options.plan);
  if (!text) return std::unexpected(text.error());
  const auto plan = formats::read_plan(*text, *options.plan);
  if (!plan) return std::unexpected(plan.error());
  if (options.shot < 1 || options.shot > plan->shots.size()) {
    return std::unexpected(formats::no_such_shot(options.shot, plan->shots.size()));
  }
  return plan->shots[options.shot - 1];
}

}  // namespace ahead::cli
