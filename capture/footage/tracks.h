#pragma once

#include <vector>

#include "capture/capture.h"
#include "capture/footage/capture_footage.h"

/// Balls joined from frame to frame. Private to this room.
namespace ahead::capture {

/// Each track goes on with the ball of its colour that lies nearest to where it would be if it went
/// on; a track whose ball is not seen stays as it is.
void add_to_tracks(std::vector<Track>& tracks, const std::vector<CapturedBall>& balls, double t_s);

}  // namespace ahead::capture
