#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "coach/plan/plan.h"
#include "formats/capture.h"
#include "formats/workbench/questions.h"

/// What the page asks about a photograph.
namespace ahead::formats {

struct CaptureQuestion {
  std::string photograph;  ///< the bytes of its file
  engine::Table table;
  std::vector<engine::Vec2> corners;  ///< four, px, or none
};

struct DrawingQuestion {
  CameraRecord camera;
  coach::Plan plan;
  std::size_t shot = 0;  ///< index into the plan's shots
};

[[nodiscard]] Asked<CaptureQuestion> read_capture_question(std::string_view body);
[[nodiscard]] Asked<DrawingQuestion> read_drawing_question(std::string_view body);

}  // namespace ahead::formats
