#pragma once

#include <expected>
#include <filesystem>
#include <functional>
#include <span>
#include <vector>

#include "capture/capture.h"

/// From footage of a camera that stands still to a sequence of layouts.
namespace ahead::capture {

/// A stretch in which nothing on the bed moves, and what lies there: many frames averaged.
struct StillStretch {
  double from_s = 0;
  double to_s = 0;
  Captured captured;
};

struct TrackPoint {
  double t_s = 0;
  Vec2 at;
  double sigma_m = 0;
};

/// One ball as it was seen to move.
struct Track {
  coach::Colour colour{};
  std::vector<TrackPoint> points;
};

/// What happens between two still stretches.
struct SeenShot {
  double from_s = 0;          ///< when the first ball moves
  double to_s = 0;            ///< when the last one has stopped
  std::vector<Track> tracks;  ///< the cue ball's first; balls that do not move have none
};

struct Footage {
  std::vector<StillStretch> stills;
  std::vector<SeenShot> shots;  ///< the n-th between the n-th still stretch and the next
};

/// Told how many seconds of the clip are done; false stops the work.
using OnSecond = std::function<bool(double)>;

/// `points` as for a photograph, marked in any frame of the clip made `most_frame_width` wide at
/// most; none when the table is to be found as well.
[[nodiscard]] std::expected<Footage, Refusal> capture_footage(const std::filesystem::path& clip,
                                                              const engine::Table& table,
                                                              std::span<const SeenPoint> points,
                                                              const OnSecond& on_second);

}  // namespace ahead::capture
