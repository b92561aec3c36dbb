#include "capture/footage/tracks.h"

#include <algorithm>
#include <cstddef>
#include <optional>

namespace ahead::capture {
namespace {

/// A moving ball is the same one in the next frame when it is no further off than at this speed.
constexpr double fastest_mps = 8;

}  // namespace

void add_to_tracks(std::vector<Track>& tracks, const std::vector<CapturedBall>& balls, double t_s) {
  std::vector<bool> used(balls.size(), false);
  for (Track& track : tracks) {
    const TrackPoint& last = track.points.back();
    const double reach_m = 0.03 + fastest_mps * (t_s - last.t_s);
    // Where it would be if it went on: nearest to that.
    Vec2 expected = last.at;
    if (track.points.size() > 1) {
      const TrackPoint& before = track.points[track.points.size() - 2];
      expected = last.at + (t_s - last.t_s) / (last.t_s - before.t_s) * (last.at - before.at);
    }
    std::optional<std::size_t> best;
    double nearest = reach_m;
    for (std::size_t i = 0; i < balls.size(); ++i) {
      if (used[i] || balls[i].ball.colour != track.colour) continue;
      const double off =
          std::min(norm(balls[i].ball.at - expected), norm(balls[i].ball.at - last.at) + 0.01);
      if (off < nearest) {
        nearest = off;
        best = i;
      }
    }
    if (!best) continue;
    used[*best] = true;
    track.points.push_back(
        {.t_s = t_s, .at = balls[*best].ball.at, .sigma_m = balls[*best].ball.sigma_m});
  }
}

}  // namespace ahead::capture
