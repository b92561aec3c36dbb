#include "capture/record.h"

namespace ahead::capture {

formats::CaptureRecord record_of(const Captured& captured) {
  const Camera& camera = captured.camera;
  formats::CaptureRecord record{.layout = captured.layout,
                                .doubtful = captured.doubtful,
                                .ends_known = captured.ends_known,
                                .camera = {.width_px = camera.width_px,
                                           .height_px = camera.height_px,
                                           .focal_px = camera.focal_px,
                                           .k1 = camera.k1,
                                           .at = camera.at,
                                           .axes = camera.axes},
                                .residual_px = captured.residual_px};
  for (const engine::Vec3 corner : nose_corners(captured.layout.table)) {
    record.corners.push_back(pixel_of(camera, corner).value_or(engine::Vec2{}));
  }
  for (const CapturedBall& ball : captured.balls) {
    record.balls.push_back({.id = ball.ball.id,
                            .at = ball.ball.at,
                            .sigma_m = ball.ball.sigma_m,
                            .covariance_m2 = {ball.xx, ball.xy, ball.yy},
                            .confidence = ball.confidence,
                            .pixel = ball.pixel});
  }
  return record;
}

Camera camera_of(const formats::CameraRecord& record) {
  return {.width_px = record.width_px,
          .height_px = record.height_px,
          .focal_px = record.focal_px,
          .k1 = record.k1,
          .axes = record.axes,
          .at = record.at};
}

}  // namespace ahead::capture
