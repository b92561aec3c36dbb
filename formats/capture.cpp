#include "formats/capture.h"

#include <nlohmann/json.hpp>

#include "formats/json_print.h"
#include "formats/units.h"
#include "formats/values.h"

namespace ahead::formats {
namespace {

using nlohmann::ordered_json;

ordered_json pixel(engine::Vec2 at) { return {rounded(at.x, 2), rounded(at.y, 2)}; }

ordered_json direction(engine::Vec3 v) {
  return {rounded(v.x, 9), rounded(v.y, 9), rounded(v.z, 9)};
}

ordered_json ball_json(const CapturedBallRecord& ball) {
  ordered_json covariance = ordered_json::array();
  for (const double c : ball.covariance_m2) covariance.push_back(rounded(1e6 * c, 4));
  ordered_json json;
  json["id"] = ball.id;
  json["at"] = json_of(ball.at);
  json["sigma_mm"] = rounded(mm(ball.sigma_m), 3);
  json["covariance_mm2"] = std::move(covariance);
  json["confidence"] = rounded(ball.confidence, 3);
  json["pixel"] = pixel(ball.pixel);
  return json;
}

ordered_json camera_json(const CameraRecord& camera) {
  ordered_json json;
  json["size_px"] = {camera.width_px, camera.height_px};
  json["focal_px"] = rounded(camera.focal_px, 4);
  json["k1"] = rounded(camera.k1, 6);
  json["at_mm"] = {rounded(mm(camera.at.x), 3), rounded(mm(camera.at.y), 3),
                   rounded(mm(camera.at.z), 3)};
  json["right"] = direction(camera.axes[0]);
  json["down"] = direction(camera.axes[1]);
  json["forward"] = direction(camera.axes[2]);
  return json;
}

}  // namespace

ordered_json json_of(const CaptureRecord& capture) {
  ordered_json json;
  json["format"] = capture_format;
  json["layout"] = json_of(capture.layout);
  json["balls"] = ordered_json::array();
  for (const CapturedBallRecord& ball : capture.balls) json["balls"].push_back(ball_json(ball));
  json["doubtful"] = capture.doubtful;
  json["corners"] = ordered_json::array();
  for (const engine::Vec2 corner : capture.corners) json["corners"].push_back(pixel(corner));
  json["ends_known"] = capture.ends_known;
  json["camera"] = camera_json(capture.camera);
  json["residual_px"] = rounded(capture.residual_px, 3);
  return json;
}

std::string write_capture(const CaptureRecord& capture) { return print_json(json_of(capture)); }

}  // namespace ahead::formats
