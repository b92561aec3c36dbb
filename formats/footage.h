#pragma once

#include <string>
#include <vector>

#include "formats/capture.h"

/// What a clip gave, `three-ahead.footage/1`: `ahead schema footage` explains its keys.
namespace ahead::formats {

struct StillRecord {
  double from_s = 0;
  double to_s = 0;
  CaptureRecord capture;
};

struct TrackPointRecord {
  double t_s = 0;
  engine::Vec2 at;  ///< m
  double sigma_m = 0;
};

struct TrackRecord {
  coach::Colour colour{};
  std::vector<TrackPointRecord> points;
};

struct SeenShotRecord {
  double from_s = 0;
  double to_s = 0;
  std::vector<TrackRecord> tracks;
};

struct FootageRecord {
  std::vector<StillRecord> stills;
  std::vector<SeenShotRecord> shots;  ///< the n-th between the n-th still stretch and the next
};

[[nodiscard]] std::string write_footage(const FootageRecord& footage);

}  // namespace ahead::formats
