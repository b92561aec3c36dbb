#pragma once

#include <span>
#include <vector>

#include <opencv2/core.hpp>

#include "capture/balls/cloth.h"
#include "capture/balls/find_balls.h"
#include "capture/camera/camera.h"
#include "coach/layout.h"

/// Which ball is which. Private to this room.
namespace ahead::capture {

/// The sets of balls that are told apart.
enum class BallSet { english, american };

struct ToldColour {
  coach::Colour colour{};
  double confidence = 0;  ///< share of the evidence for this colour against the next best
  double evidence = 0;    ///< 0 to 1: how much of the ball has this colour at all
};

/// One answer a ball, in the same order. A set has one cue ball, one black and seven of each kind:
/// where more look so, those that look it least become what they look like next.
[[nodiscard]] std::vector<ToldColour> tell_colours(const cv::Mat& picture, const Camera& camera,
                                                   std::span<const FoundBall> balls, BallSet set);

}  // namespace ahead::capture
