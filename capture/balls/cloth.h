#pragma once

#include <opencv2/core.hpp>

#include "capture/camera/camera.h"
#include "engine/equipment/table.h"

/// What of a photograph is cloth. Private to this room.
namespace ahead::capture {

/// Cloth in shade keeps its colour and loses brightness, so a pixel is cloth when it lies near the
/// line from black through the cloth's colour, not much brighter and not almost black. The colour
/// is learnt from the bed itself, cell by cell, since lamps light it unevenly: most of a bed is
/// cloth.
struct Cloth {
  cv::Mat colour;    ///< CV_32FC3, of the picture's size: what the bare cloth would look like
  cv::Mat evidence;  ///< CV_32F, 0 where a pixel is cloth and 1 where it surely is not
  /// The same with every deeper shade held to be no cloth: a black ball on dark cloth.
  cv::Mat with_shades;
  double noise = 0;  ///< of a pixel of cloth, in 255ths
};

/// `picture` is CV_32FC3 in 255ths, blue, green, red.
[[nodiscard]] Cloth learn_cloth(const cv::Mat& picture, const Camera& camera,
                                const engine::Table& table);

}  // namespace ahead::capture
