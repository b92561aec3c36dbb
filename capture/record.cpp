#include "capture/record.h"

#include <utility>

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

formats::FootageRecord record_of(const Footage& footage) {
  formats::FootageRecord record;
  for (const StillStretch& still : footage.stills) {
    record.stills.push_back(
        {.from_s = still.from_s, .to_s = still.to_s, .capture = record_of(still.captured)});
  }
  for (const SeenShot& shot : footage.shots) {
    formats::SeenShotRecord seen{.from_s = shot.from_s, .to_s = shot.to_s};
    for (const Track& track : shot.tracks) {
      formats::TrackRecord path{.colour = track.colour};
      for (const TrackPoint& point : track.points) {
        path.points.push_back({.t_s = point.t_s, .at = point.at, .sigma_m = point.sigma_m});
      }
      seen.tracks.push_back(std::move(path));
    }
    record.shots.push_back(std::move(seen));
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
